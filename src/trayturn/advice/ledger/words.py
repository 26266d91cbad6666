"""One row of the ledger in words: its story, and the entries that its figures are from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime

from trayturn.advice.bands import mass_band, percent_band, rough_mass
from trayturn.advice.entry_words import entry_line
from trayturn.advice.ledger.castings import How
from trayturn.advice.ledger.sums import against_published, castings_words, ratio
from trayturn.advice.ledger.turn import Turn
from trayturn.domain.entries import Entry
from trayturn.domain.lots import Lot
from trayturn.domain.setup import Units
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean, count, day, listed

MOST_NAMES = 3
"""How many names of a list are told."""


def story(turn: Turn, now: datetime, units: Units) -> list[str]:
    """One row in a few sentences."""
    return [line for line in _story(turn, now, units) if line]


def _story(turn: Turn, now: datetime, units: Units) -> Iterator[str]:
    life = turn.life
    fed = f", first fed {day(life.meals[0].at, now)}" if life.meals else ", never fed"
    yield (
        f"Tray {life.tray}: started {day(life.started_at, now)}{fed}, separated {day(life.ended_at, now)}, "
        f"{count(round(turn.days), 'day')} after its start."
    )
    yield _went_in(turn, units)
    yield _origin(turn)
    yield _came_out(turn, units)
    yield _per(turn, units)
    yield _kept(turn, now)
    yield _forecast(turn, units)
    yield _settled(turn)


def _went_in(turn: Turn, units: Units) -> str:
    life = turn.life
    meals = f" in {count(len(life.meals), 'feeding')}" if life.meals else ""
    parts = [
        f"{show_mass(turn.scraps_kg, units)} of scraps{meals}" if turn.scraps_kg else "",
        f"{show_mass(turn.bedding_kg, units)} of bedding" if turn.bedding_kg else "",
        f"{show_mass(life.grit_kg, units)} of grit" if life.grit_kg else "",
        f"{show_mass(life.water_kg, units)} of water" if life.water_kg else "",
    ]
    told = [part for part in parts if part]
    if not told:
        return "Nothing that went in was written down."
    dry = f"Scraps and bedding hold about {rough_mass(turn.solids_kg, units)} of dry solids by the table"
    return f"In went {listed(told)}. {dry}{_stood_in(turn)}."


def _stood_in(turn: Turn) -> str:
    """The scraps that are not in the table."""
    names = [clean(name, 30) for name in sorted(turn.stand_ins)]
    more = [f"{len(names) - MOST_NAMES} more"] if len(names) > MOST_NAMES else []
    told = listed([*names[:MOST_NAMES], *more])
    return f" ({told} reckoned as mixed kitchen scraps)" if names else ""


def _origin(turn: Turn) -> str:
    """Why a row tells nothing of the yield, where it is for what went in."""
    start = turn.life.start
    if start is None:
        return "It came in by a turn without being started, so its first bedding is not known: no yield."
    if start.came_from:
        return f"It came filled from {clean(start.came_from, 40)}, so what went in is not known: no yield."
    return ""


def _came_out(turn: Turn, units: Units) -> str:
    one = turn.castings
    if one.kg is None:
        return "Its castings were not weighed, and are in no sum. Weigh the next ones as they come off."
    if one.how is How.IN_PART:
        told = f"{one.skims} of {count(one.passes, 'skim')} weighed" if one.passes else "weighed in part"
        return f"Out came {castings_words(one, units)} of castings: {told}, so no yield is told."
    return f"Out came {show_mass(one.kg, units)} of castings: {one.how}."


def _per(turn: Turn, units: Units) -> str:
    if turn.per_solids is None:
        return ""
    unit = "lb" if units is Units.US else "kg"
    scraps = f"{ratio(turn.per_scraps)} {unit} for each {unit} of scraps, " if turn.per_scraps else ""
    return f"That is {scraps}{ratio(turn.per_solids)} {unit} for each {unit} of dry solids."


def _kept(turn: Turn, now: datetime) -> str:
    if turn.kept is None:
        return ""
    water = turn.water
    if water.read_at is None:
        read = f"No moisture was read near the end: at {percent_band(water.share)}, as is assumed,"
    else:
        by = "felt" if water.by_feel else "read"
        percent = f"{'about ' if water.by_feel else ''}{round(100 * water.share.mid)} %"
        read = f"{percent} of it was water, {by} {day(water.read_at, now)}, 5 points either way:"
        read = read[:1].upper() + read[1:]
    return f"{read} {percent_band(turn.kept)} of the solids stayed. {against_published(turn.kept)}"


def _forecast(turn: Turn, units: Units) -> str:
    band = turn.forecast_kg
    if band is None:
        return ""
    told = f"The outlook had led to expect {mass_band(band, units)}"
    if turn.held is None:
        return f"{told}."
    return f"{told}: it came {'out within' if turn.held else 'out beside'} that."


def _settled(turn: Turn) -> str:
    """Where worms, rest and pieces went, in the keeper's words; none of it is weighed."""
    settled = turn.life.separations[-1].settled if turn.life.separations else None
    if settled is None:
        return ""
    ways = (("worms", settled.worms_to), ("rest", settled.rest_to), ("pieces", settled.overs_to))
    told = [f"{what} to {clean(where, 40)}" for what, where in ways if where]
    return f"Moved, unweighed: {listed(told)}." if told else ""


def entries_behind(turn: Turn, lots: Sequence[Lot], units: Units) -> list[str]:
    """The entries that a row's figures are from, oldest first, each on a line with its day."""
    life = turn.life
    entries: list[Entry] = [*([life.start] if life.start is not None else []), *life.meals]
    if turn.water.read_at is not None and life.last_moisture is not None:
        entries.append(life.last_moisture)
    for done in life.separations:
        entries += [*done.passes, *([done.settled] if done.settled is not None else [])]
    told = [(entry.at, entry_line(entry, units)) for entry in entries]
    told += [(lot.begun_at, _lot_line(lot, units)) for lot in lots_behind(turn, lots)]
    return [f"{at:%Y-%m-%d}  {line}" for at, line in sorted(told, key=lambda pair: pair[0])]


def lots_behind(turn: Turn, lots: Sequence[Lot]) -> list[Lot]:
    """The lots that the castings of a row were put by in, where their weight is its weight."""
    life = turn.life
    if turn.castings.how is not How.LOT or not life.separations:
        return []
    begun = life.separations[0].begun_at
    last = turn.castings.at or life.ended_at
    return [lot for lot in lots if lot.tray == life.tray and begun <= lot.begun_at <= last]


def _lot_line(lot: Lot, units: Units) -> str:
    kg = f", {show_mass(lot.begun_kg, units)}" if lot.begun_kg is not None else ""
    return f"castings {lot.tray}: lot {lot.code} begun{kg}"
