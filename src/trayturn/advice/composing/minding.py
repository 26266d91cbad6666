"""What is worth minding about a meal, most pressing first, each with its reason, source and page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import IntEnum

from trayturn.advice.bands import mass_band, rough_mass
from trayturn.advice.composing.draft import EATEN, SHREDS, Draft, Part
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.report import Report
from trayturn.advice.feeding import feeding_due
from trayturn.advice.found.hints import source_hints
from trayturn.advice.links import WARNINGS
from trayturn.advice.pages import Page
from trayturn.advice.phrases import every, when
from trayturn.advice.resting import rests
from trayturn.advice.turning import next_turn
from trayturn.domain.entries import Stage
from trayturn.domain.setup import Units
from trayturn.domain.stack import days_between
from trayturn.domain.units import show_length, show_mass, show_temperature
from trayturn.domain.words import clean, listed
from trayturn.science import limits
from trayturn.science.ration import HOT
from trayturn.science.temperature import WARMEST

COVER_M = 0.025
"""What covers the scraps: about an inch of bedding (Solomon 1993; City of Oxnard worm guide)."""
REST_PAGES = {
    "separation": Page.SEPARATING,
    "hot": Page.TEMPERATURE,
    "cold": Page.TEMPERATURE,
    "wet": Page.MOISTURE,
    "smell": Page.SMELLS,
}
LOOKED = "your own looks at the bin"
PRACTICE = "common practice, no source"
SOONER = 0.75
"""Fed again before so much of the interval has passed is soon. Our choice."""


class Press(IntEnum):
    """How pressing: act on it, mind it, or know it."""

    ACT = 0
    MIND = 1
    KNOW = 2


@dataclass(frozen=True, slots=True)
class Mind:
    """One thing worth minding: what in a short sentence, why and what to do, who says so, and its page."""

    press: Press
    code: str
    what: str
    why: str
    source: str
    page: Page


def minding(draft: Draft, ground: Ground, figures: Report) -> list[Mind]:
    """All that is worth minding about this meal in this tray, most pressing first."""
    found = [
        *_rest(draft, ground),
        *_warm(draft, ground),
        *_tray(ground),
        *_guidance(draft, ground),
        *_came_in(draft, ground),
        *_load(draft, ground, figures),
        *_limits(ground, figures),
        *_soon(draft, ground),
        *_cover(draft, figures, ground),
        *_stock(draft, ground),
        *_unknown(figures),
    ]
    return sorted(found, key=lambda one: one.press)


def _rest(draft: Draft, ground: Ground) -> Iterator[Mind]:
    """Why nothing should be fed now: a separation, cold or heat, wet, a smell, or a follow-up."""
    if not draft.kg(*EATEN):
        return
    for rest in rests(ground.stack, ground.tray):
        page = REST_PAGES.get(rest.code, Page.TROUBLES)
        yield Mind(Press.ACT, f"rest:{rest.code}", f"Feed nothing until {rest.end}.", rest.why, LOOKED, page)


def _warm(draft: Draft, ground: Ground) -> Iterator[Mind]:
    celsius = ground.contents.celsius
    if ground.contents.celsius_read and draft.kg(*EATEN) and HOT < celsius <= WARMEST:
        what = f"Warm: {show_temperature(celsius, ground.units)}. Feed thin."
        why = ground.ration.why.rpartition("(Ndegwa et al. 2000). ")[2]
        yield Mind(Press.MIND, "warm", what, why, "Sreenivasan", Page.TEMPERATURE)


def _tray(ground: Ground) -> Iterator[Mind]:
    tray, stack = ground.tray, ground.stack
    if tray.stage is Stage.SEPARATING:
        why = "Its worms are being separated from its castings: scraps would keep them in it."
        what = f"Tray {tray.id} is being separated."
        yield Mind(Press.ACT, "separating", what, why, PRACTICE, Page.SEPARATING)
    if tray.stage is Stage.FINISHING:
        why = "It is left alone so that the worms finish what is in it; fed again it finishes later."
        what = f"Tray {tray.id} is finishing."
        yield Mind(Press.ACT, "finishing", what, why, PRACTICE, Page.TURNING)
    if tray.stage is Stage.BEDDING:
        why = "This feeding makes it the feeding tray. Begin small: its worms have still to come to it."
        what = f"First meal of tray {tray.id}."
        yield Mind(Press.KNOW, "first", what, why, PRACTICE, Page.STARTING)
    turn = next_turn(stack)
    if turn.ready and not stack.separations:
        yield Mind(Press.KNOW, "turn", "A turn is due.", " ".join(turn.why[:1]), PRACTICE, Page.TURNING)


def _guidance(draft: Draft, ground: Ground) -> Iterator[Mind]:
    for line in draft.of(*EATEN, *SHREDS):
        row = ground.pantry.meant(line.name)
        if row is None or row.guidance == "ok" or line.kg <= 0:
            continue
        avoid = row.guidance == "avoid"
        name = clean(line.name, 30)
        what = f"Leave out {name}." if avoid else f"Little of {name}."
        reason = f"{row.reason[:1].upper()}{row.reason[1:]}." if row.reason else "It is to be limited."
        page = Page.SALT if "salt" in row.reason else Page.FEEDING
        yield Mind(
            Press.ACT if avoid else Press.MIND, f"{row.guidance}:{line.name}", what, reason, row.source, page
        )


def _came_in(draft: Draft, ground: Ground) -> Iterator[Mind]:
    """What does not belong in a bin and came in with such before."""
    named = [line.name for line in draft.of(*EATEN, *SHREDS) if line.kg > 0]
    for hint in source_hints(ground.stack, named):
        code = f"source:{hint.source.key}"
        yield Mind(Press.MIND, code, hint.what, hint.why, "your own finds", Page.FOUND)


def _load(draft: Draft, ground: Ground, figures: Report) -> Iterator[Mind]:
    load = figures.load
    if not load.level or not load.meal_kg or load.share is None:
        return
    takes = mass_band(load.takes_kg, ground.units)
    why = (
        f"They take {takes} until the next feeding; this meal and what is uneaten come to "
        f"{rough_mass(load.kg, ground.units)}. Too much rots, heats and drips. Let the rest wait."
    )
    press = Press.ACT if load.level == 2 else Press.MIND
    yield Mind(
        press,
        "load",
        f"{load.words[:1].upper()}{load.words[1:]}.",
        why,
        "extension sheets, 0.2 to 0.5",
        Page.MEALS,
    )


def _limits(ground: Ground, figures: Report) -> Iterator[Mind]:
    """The published limits, of the tray after the meal; of the meal alone where the tray stays within."""
    if not figures.total_kg:
        return
    seen = set()
    tray = f"Tray {ground.tray.id} after it: "
    for one in limits.warnings(figures.after):
        seen.add(one.code)
        yield _caution(one, Press.ACT, tray)
    for one in limits.warnings(figures.meal):
        if one.code not in seen:
            yield _caution(one, Press.MIND, "The meal alone: ")
    if figures.layer_m is not None and figures.layer_m > limits.DEEPEST_M:
        thin = "1 to 1.5 in" if ground.units is Units.US else "2.5 to 3.8 cm"
        what = f"A layer of {show_length(figures.layer_m, ground.units)} may heat."
        why = f"Spread it over the whole tray, or feed it in turns: {thin} does not heat."
        source = "Sherman, Ways with Worm Farming"
        yield Mind(Press.MIND, "heating", what, why, source, Page.LAYERS)


def _caution(one: limits.Caution, press: Press, whose: str) -> Mind:
    short = {"wet": "too wet", "dry": "too dry", "ammonia": "too rich in nitrogen", "salt": "too salty"}
    return Mind(press, one.code, f"{whose}{short[one.code]}.", one.what, one.source, WARNINGS[one.code])


def _soon(draft: Draft, ground: Ground) -> Iterator[Mind]:
    tray, stack = ground.tray, ground.stack
    if tray.last_fed_at is None or not draft.kg(*EATEN):
        return
    if days_between(tray.last_fed_at, stack.as_of) >= SOONER * ground.days:
        return
    fed = when(tray.last_fed_at, stack.as_of)
    due = when(feeding_due(tray, stack), stack.as_of)
    why = f"This bin is fed {every(ground.days)}, so tray {tray.id} is due {due}. Look whether it is eaten."
    yield Mind(Press.MIND, "soon", f"Fed {fed} already.", why, "your own interval", Page.FEEDING)


def cover_words(units: Units) -> str:
    """How deep a cover is to lie, in the keeper's units."""
    return f"about {'1 in' if units is Units.US else '2.5 cm'}"


def _cover(draft: Draft, figures: Report, ground: Ground) -> Iterator[Mind]:
    if not draft.kg(Part.SCRAPS) or figures.cover_m >= 0.5 * COVER_M:
        return
    what = "No cover." if not draft.kg(Part.COVER) else "A thin cover."
    depth = cover_words(ground.units).capitalize()
    why = f"{depth} of loose bedding over the scraps keeps flies and smells down."
    source = "Solomon 1993; City of Oxnard worm guide"
    yield Mind(Press.KNOW, "cover", what, why, source, Page.BEDDING)


def _stock(draft: Draft, ground: Ground) -> Iterator[Mind]:
    used = {**draft.masses(*SHREDS), **draft.masses(Part.GRIT)}
    for name, kg in used.items():
        held = ground.stack.supplies_kg.get(name)
        if held is not None and kg > held + 1e-6:
            what = f"More {clean(name, 30)} than in stock."
            why = (
                f"{show_mass(kg, ground.units)} goes in and {show_mass(held, ground.units)} is written down."
            )
            yield Mind(Press.MIND, f"stock:{name}", what, why, "your own stock", Page.SUPPLIES)


def _unknown(figures: Report) -> Iterator[Mind]:
    if figures.stand_ins:
        names = listed(clean(name, 30) for name in figures.stand_ins)
        why = (
            "It is not in the table with a moisture of its own. Add it to your own ingredients to tell more."
        )
        what = f"{names}: reckoned as kitchen scraps."
        yield Mind(Press.KNOW, "stand-in", what, why, "the table of ingredients", Page.HOW_SURE)
