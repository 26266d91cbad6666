"""Why a figure of a meal is what it is: its numbers, its formula in words, and its source."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from trayturn.advice.bands import Band, mass_band, percent_band, rough_mass, rough_volume, said
from trayturn.advice.composing.draft import SHREDS, Draft, Line
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.report import Report
from trayturn.advice.composing.telling import depth, layer, percent, ratio_band, span
from trayturn.domain.units import show_area, show_mass, show_temperature
from trayturn.domain.words import clean, count, listed
from trayturn.science.ration import STOCKING_KG_M2, area_rule

CORNELL = "Richard & Trautmann, Cornell Composting, 1996"
Reason = Callable[[Draft, Ground, Report], Iterator[str]]


def reason(code: str, draft: Draft, ground: Ground, found: Report) -> list[str]:
    """The paragraphs behind a figure; an empty one parts them."""
    return list(REASONS[code](draft, ground, found))


def _meal(draft: Draft, ground: Ground, found: Report) -> Iterator[str]:
    yield "Everything that goes in: scraps, amendments, grit, water, bedding and cover."
    yield ""
    for line in draft:
        if line.kg > 0:
            yield f"{clean(line.name, 60)}, {show_mass(line.kg, ground.units)}: {_made_of(line, ground)}"
    yield ""
    yield (
        "Moisture is all the water over all the mass; C:N is all the carbon over all the nitrogen of the "
        f"solids, each part by its own figures. Source: {CORNELL}."
    )
    if found.blame:
        yield f"C:N cannot be told: carbon or nitrogen of {_names(found.blame)} is not known."


def _made_of(line: Line, ground: Ground) -> str:
    row, stuff = ground.row(line), ground.stuff(line)
    if row is None:
        return "water." if stuff.moisture == 1 else "taken as dry, and no more is known of it."
    water = "?" if stuff.moisture is None else percent(stuff.moisture)
    nitrogen = "?" if stuff.n is None else f"{100 * stuff.n:.2g} %"
    carbon = "?" if stuff.c is None else f"{100 * stuff.c:.3g} %"
    as_what = "" if ground.known(line) else "as mixed kitchen scraps, "
    return f"{as_what}{water} water; of its solids N {nitrogen}, C {carbon}. {row.source} ({row.sure})."


def _tray(draft: Draft, ground: Ground, found: Report) -> Iterator[str]:
    held, units = ground.contents, ground.units
    if found.moisture_after is not None:
        moisture = f"{percent_band(found.moisture_after)} moisture, {ratio_band(found.c_to_n_after)}"
        yield f"Tray {ground.tray.id} right after this meal: {moisture}."
    yield ""
    yield (
        f"It holds {mass_band(held.wet_kg, units)} now, at {percent_band(held.moisture)} moisture "
        f"({held.basis}) and {ratio_band(held.c_to_n)}. All that went in is followed by decay: half of the "
        "worked solids, 40 to 60 %, leave as gas (Pondicherry University), and nitrogen stays. The meal is "
        "then mixed in by mass."
    )
    yield ""
    yield (
        "Worms do best at 80 to 90 % and bear 60 to 90 % (Edwards 1988); a household box is kept at about "
        "75 % (Solomon 1993). C:N 25 was the best of the ratios tried (Ndegwa & Thompson 2000)."
    )
    if held.stand_ins:
        yield f"Reckoned as mixed scraps: {_names(held.stand_ins)}."
    if found.c_to_n_after is None:
        names = _names(found.blame) or "some bedding in the tray"
        yield f"C:N cannot be told: {names} has no figures for it."


def _load(draft: Draft, ground: Ground, found: Report) -> Iterator[str]:
    load, units = found.load, ground.units
    yield f"{load.words[:1].upper()}{load.words[1:]}."
    yield ""
    yield f"This meal: {show_mass(load.meal_kg, units)} to eat."
    yield f"Uneaten from before: {mass_band(load.uneaten_kg, units)}, by the decay of what went in."
    yield (
        f"The worms take {mass_band(load.takes_kg, units)} until the next feeding, in "
        f"{count(round(ground.days), 'day')}. The share is taken from the middle of both."
    )
    yield ""
    yield _worms(ground)
    yield ground.ration.why
    if not ground.contents.celsius_read:
        yield f"No temperature was read: reckoned as at {show_temperature(ground.contents.celsius, units)}."
    rule = rough_mass(area_rule(ground.area_m2) / 7 * ground.days, units)
    yield f"Beside it, the area rule gives {rule}: 1 lb a week and square foot (NC State AG-473-18)."


def _worms(ground: Ground) -> str:
    worms, units = ground.worms, ground.units
    shared = f", shared by the {worms.trays} trays that are fed" if worms.trays > 1 else ""
    if worms.known:
        held = show_mass(worms.kg, units)
        return f"Worms: {held} by the journal{shared}. Young ones since then are not counted."
    return (
        f"No worms are written down, so {rough_mass(worms.kg, units)} are assumed: the best stocking, "
        f"{STOCKING_KG_M2:g} kg a square metre (Ndegwa et al. 2000), on {show_area(ground.area_m2, units)}."
    )


def _gone(draft: Draft, ground: Ground, found: Report) -> Iterator[str]:
    yield "Until a tenth of the soft part is left; the slowest is shown:"
    yield from (f"  {clean(one.name, 60)}: {span(one)}" for one in found.gone)
    yield ""
    read = "read" if ground.contents.celsius_read else "assumed"
    celsius = show_temperature(ground.contents.celsius, ground.units)
    yield (
        f"By how fast each breaks down, at {celsius} ({read}). No table of days for single scraps is "
        "published: the rates are our choice, anchored on whole food waste (Kumar 2010; Karnchanawong & "
        "Suriyanon 2011). Chopped finely it goes faster (Hood College thesis, 2022)."
    )


def _water(draft: Draft, ground: Ground, found: Report) -> Iterator[str]:
    wet, units = found.wetness, ground.units
    yield (
        "The water of the scraps, and what their rot makes, that their castings do not hold: about "
        f"{rough_volume(max(0.0, wet.surplus_kg), units)}. Half of the solids leave as gas and give "
        "0.598 kg of water a kilogram; the other half becomes castings as moist as the tray is to be, "
        f"{percent(ground.goals.moisture)}."
    )
    yield ""
    for line in draft.of(*SHREDS):
        if line.kg > 0:
            low, high, source = ground.holds(line.name)
            taken = Band(line.kg * low, line.kg * (low + high) / 2, line.kg * high)
            words = said(taken, lambda kg: rough_volume(kg, units))
            yield f"{clean(line.name, 40)} takes up {words} ({source})."
    if wet.tray_kg > 0.01:
        yield (
            f"The tray takes up about {rough_volume(wet.tray_kg, units)} until it is as moist as it is to be."
        )
    yield "What is left evaporates, or drips into the tray below and the sump."


def _layer(draft: Draft, ground: Ground, found: Report) -> Iterator[str]:
    units = ground.units
    yield f"Spread loosely over {show_area(ground.area_m2, units)}: {layer(found, units)}."
    if found.unplaced:
        yield f"The density of {_names(found.unplaced)} is not known."
    yield (
        "Foods without a density of their own count as mixed scraps, 840 kg/m3; paper as loose shreds, 20 "
        "kg/m3 (both Solomon 1993)."
    )
    yield ""
    yield (
        f"A layer of {depth(0.025, units)} to {depth(0.038, units)} does not heat (Sherman, Ways with Worm "
        f"Farming). A cover is about {depth(0.025, units)} (Solomon 1993; City of Oxnard)."
    )


def _names(names: tuple[str, ...]) -> str:
    return listed(clean(name, 40) for name in names)


REASONS: dict[str, Reason] = {
    "meal": _meal,
    "tray": _tray,
    "load": _load,
    "gone": _gone,
    "water": _water,
    "layer": _layer,
}
