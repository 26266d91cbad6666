"""What an outlook tells of, topic by topic: one series or the past forecasts, with its name and sentences."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.bands import mass_band, percent_band
from trayturn.advice.outlook import words
from trayturn.advice.outlook.result import Fan, Misfit, Outlook, Point, PointKind
from trayturn.advice.outlook.scored import NOTHING, verdict
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.words import count, day

CASTINGS, HARVESTS, WORMS, SUMP, PAST = "castings", "harvests", "worms", "sump", "past"
MOISTURE = "moisture:"
"""The topics; that of a tray's moisture ends in the tray."""
NAMES = {
    CASTINGS: "Castings",
    HARVESTS: "Harvests",
    WORMS: "Worms",
    SUMP: "Sump water",
    PAST: "Past forecasts",
}
HEADINGS = {
    HARVESTS: "Harvests to come",
    WORMS: "Worms in the bin",
    SUMP: "Water in the sump, not emptied",
    PAST: "Past forecasts against what came",
}
KINDS: dict[str, PointKind] = {WORMS: "worms", SUMP: "sump"}
"""What is measured of each. No castings are weighed before their tray is emptied."""
A_MONTH = 30


def topics(told: Outlook) -> tuple[str, ...]:
    """Everything that this outlook tells of, the trays from the top down; nothing without a tray."""
    found = [
        topic for topic in (CASTINGS, HARVESTS, WORMS, SUMP) if topic == HARVESTS or topic in told.series
    ]
    trays = [MOISTURE + tray for tray in reversed(list(told.moisture)) if MOISTURE + tray in told.series]
    return (*found, *trays, PAST) if told.series else ()


def tray_of(topic: str) -> str | None:
    """The tray whose moisture it is."""
    return topic.removeprefix(MOISTURE) if topic.startswith(MOISTURE) else None


def name_of(topic: str) -> str:
    """A topic in a word or two: `Castings`, `Moisture A`."""
    tray = tray_of(topic)
    return f"Moisture {tray}" if tray is not None else NAMES[topic]


def heading_of(topic: str, told: Outlook) -> str:
    """What exactly it is: `Castings in tray C`, `Water in the sump, not emptied`."""
    if topic == CASTINGS:
        return f"Castings in tray {told.finishing}, wet"
    if (tray := tray_of(topic)) is not None:
        return f"Moisture of tray {tray}"
    return HEADINGS[topic]


def figure_of(topic: str, told: Outlook, units: Units) -> str:
    """Its one figure: the next harvest, or how it is now; of the past, how often the band held."""
    tray = tray_of(topic)
    if tray is not None:
        return percent_band(told.moisture[tray].band)
    if topic == CASTINGS:
        next_kg = told.harvests[0].castings_kg if told.harvests else told.finishing_kg
        return mass_band(next_kg.band, units) if next_kg is not None else ""
    if topic == HARVESTS:
        return f"{len(told.harvests)} by {day(told.until, told.as_of)}"
    if topic == WORMS:
        return mass_band(told.worms_kg.band, units) if told.worms_kg is not None else ""
    if topic == SUMP:
        return words.sump_words(told.sump_l, units) if told.sump_l is not None else ""
    skill = told.rests_on.skill
    return f"{skill.held} of {skill.harvests} held" if skill.harvests else "none yet"


def points_of(topic: str, told: Outlook) -> tuple[Point, ...]:
    """What was measured of it."""
    tray = tray_of(topic)
    kind = "moisture" if tray is not None else KINDS.get(topic)
    return tuple(one for one in told.points if one.kind == kind and one.tray == tray)


def misfits_of(topic: str, told: Outlook) -> tuple[Misfit, ...]:
    """What was measured of it and does not fit; of castings and past forecasts, all weights."""
    if topic in (CASTINGS, HARVESTS, PAST):
        return tuple(one for one in told.does_not_fit if one.kind in ("castings", "tray"))
    entries = {(one.entry, one.kind) for one in points_of(topic, told)}
    return tuple(one for one in told.does_not_fit if (one.entry, one.kind) in entries)


def lines_of(topic: str, told: Outlook, stack: Stack) -> Iterator[str]:
    """What there is to say of it, and what does not fit."""
    units = stack.setup.units
    if topic == CASTINGS:
        yield from _castings(told, stack)
    elif topic == HARVESTS:
        yield from _harvests(told, stack)
    elif topic == WORMS:
        yield from words.worms(told, units)
    elif topic == SUMP:
        if told.sump_l is not None:
            yield f"The sump holds {words.sump_words(told.sump_l, units)} by now."
        yield from words.water(told, stack)
    elif topic == PAST:
        yield from _past(told)
    else:
        yield from _moisture(topic, told)
    yield from (one.words for one in misfits_of(topic, told))


def _castings(told: Outlook, stack: Stack) -> Iterator[str]:
    yield from list(words.harvests(told, stack))[:1]
    if told.harvests and told.plan is not None:
        one = told.harvests[0]
        early, late = (day(end, told.as_of) for end in (one.early, one.late))
        off = count(round(told.plan.turn_off_days), "day")
        yield f"A turn may be {off} early or late: between {early} and {late}."
    yield from words.finishing(told, stack.setup.units)


def _harvests(told: Outlook, stack: Stack) -> Iterator[str]:
    yield from words.harvests(told, stack)
    if told.used == "rule of thumb":
        yield "By the rule of thumb, which did better here than the model."


def _moisture(topic: str, told: Outlook) -> Iterator[str]:
    tray, fan = tray_of(topic), told.series[topic]
    parts = [f"{percent_band(told.moisture[tray or ''].band)} now"]
    last = len(fan) - 1
    if fan.days[last] > A_MONTH:
        parts.append(f"{_percent(fan, fan.days.index(float(A_MONTH)))} in {A_MONTH} days")
    if fan.days[last] > 0:
        parts.append(f"{_percent(fan, last)} by {day(told.on(fan.days[last]), told.as_of)}")
    yield f"Tray {tray}: {', '.join(parts)}."
    leaves = next((one.date for one in told.harvests if one.tray == tray), None)
    if leaves is not None and leaves.date() < told.until.date():
        yield f"It leaves the stack {day(leaves, told.as_of)}, to be separated."
    if tray == told.bottom_tray:
        yield words.soaked(told)


def _percent(fan: Fan, place: int) -> str:
    return percent_band(fan.at(place).band)


def _past(told: Outlook) -> Iterator[str]:
    skill = told.rests_on.skill
    if not skill.harvests:
        yield NOTHING
        return
    yield from words.skill_lines(skill)
    yield verdict(skill)
