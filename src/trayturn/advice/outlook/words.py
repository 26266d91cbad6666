"""The outlook in sentences: each figure with its band, in the keeper's units."""

from __future__ import annotations

from collections.abc import Iterator
from math import expm1

from trayturn.advice.bands import mass_band, rough_mass, rough_volume, volume_band
from trayturn.advice.outlook.result import Days, Five, Harvest, Outlook, Skill
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.words import count, day, due

HARVESTS_TOLD = 3
NEXT_TO_NOTHING_L = 0.05
"""A sump is not read finer. Our choice."""


def rests_on(measurements: int) -> str:
    """What the outlook rests on, in a few words."""
    if not measurements:
        return "rests on a rule of thumb: nothing of this bin was measured yet"
    return f"rests on {count(measurements, 'measurement')} of yours"


def sentences(told: Outlook, stack: Stack) -> Iterator[str]:
    """All that the outlook says, the harvests first."""
    units = stack.setup.units
    yield from harvests(told, stack)
    yield from finishing(told, units)
    yield from worms(told, units)
    yield from water(told, stack)
    yield from rests_lines(told)


def castings(kg: Five, units: Units) -> str:
    """`about 4.5 kg of castings (3.9 kg to 5.2 kg)`."""
    return f"about {rough_mass(kg.p50, units)} of castings ({mass_band(kg.band, units)})"


def harvests(told: Outlook, stack: Stack) -> Iterator[str]:
    """The harvests to come."""
    if not told.harvests:
        yield f"No harvest falls into the time up to {day(told.until, told.as_of)}."
    for one in told.harvests[:HARVESTS_TOLD]:
        yield harvest_line(one, told, stack.setup.units)
    more = told.harvests[HARVESTS_TOLD:]
    if more:
        yield f"{count(len(more), 'more harvest')} by {day(told.until, told.as_of)}."


def harvest_line(one: Harvest, told: Outlook, units: Units) -> str:
    """One harvest to come."""
    on = day(one.date, told.as_of)
    near = due(one.date, told.as_of)
    when = on if on == near else f"{on}, {near}"
    return f"Tray {one.tray}, separated {when}: {castings(one.castings_kg, units)}."


def finishing(told: Outlook, units: Units) -> Iterator[str]:
    """What the tray that finishes next holds now."""
    if told.finishing is not None and told.finishing_kg is not None:
        yield f"In tray {told.finishing} by now: {castings(told.finishing_kg, units)}."


def worms(told: Outlook, units: Units) -> Iterator[str]:
    """The worms, and the scraps that keep them."""
    if told.worms_kg is not None:
        later = told.series["worms"]
        end = later.at(len(later) - 1)
        yield (
            f"Worms: {mass_band(told.worms_kg.band, units)} now, {mass_band(end.band, units)} by "
            f"{day(told.until, told.as_of)}."
        )
    if told.scraps_kg_per_week is not None:
        yield f"That keeps them: {mass_band(told.scraps_kg_per_week.band, units)} of your scraps a week."


def water(told: Outlook, stack: Stack) -> Iterator[str]:
    """The lowest tray, the sump, and the bedding that keeps it from filling up."""
    units = stack.setup.units
    if told.bottom_tray is not None:
        yield soaked(told)
    if told.sump_full_on is not None:
        yield f"The sump is full {days_words(told.sump_full_on, told)}, if nobody empties it."
    elif told.sump_l is not None:
        later = told.series["sump"]
        end = later.at(len(later) - 1)
        yield f"The sump, not emptied, holds {sump_words(end, units)} by {day(told.until, told.as_of)}."
    if told.dry_bedding_kg:
        more = rough_mass(told.dry_bedding_kg, units)
        yield f"About {more} more dry bedding, spread over the meals, would prevent that."
    elif told.dry_bedding_kg is None:
        yield "More dry bedding at the meals would not prevent that: feed less, or empty it in time."


def soaked(told: Outlook) -> str:
    """When the lowest tray is soaked."""
    on = told.bottom_tray_soaked_on
    lowest = f"Tray {told.bottom_tray}, the lowest,"
    if on is None:
        return f"{lowest} does not soak through while it lies there."
    return f"{lowest} is soaked {days_words(on, told)}."


def sump_words(litres: Five, units: Units) -> str:
    """`0.8 l to 1.6 l`, `at most 200 ml`, `next to nothing`."""
    if litres.p90 < NEXT_TO_NOTHING_L:
        return "next to nothing"
    if litres.p10 < NEXT_TO_NOTHING_L:
        return f"at most {rough_volume(litres.p90, units)}"
    return volume_band(litres.band, units)


def days_words(days: Days, told: Outlook) -> str:
    """`by now`, `about Tue 3 Mar (1 Feb at the earliest)`."""
    if days.mid is None:
        early = day(days.early, told.as_of) if days.early is not None else ""
        return f"after {day(told.until, told.as_of)} most likely, at the earliest {early}"
    if days.mid <= told.as_of or days.mid.date() == told.as_of.date():
        return "by now, most likely"
    ends = [day(end, told.as_of) if end is not None else "later" for end in (days.early, days.late)]
    return f"about {day(days.mid, told.as_of)} ({ends[0]} to {ends[1]})"


def rests_lines(told: Outlook, most: int = 3) -> Iterator[str]:
    """What the outlook rests on, up to so many entries that do not fit, and what to measure next."""
    skill = told.rests_on.skill
    if told.used == "rule of thumb":
        yield (
            f"The model was further off than the rule of thumb ({error_words(skill.model_error)} against "
            f"{error_words(skill.thumb_error)} over {count(skill.harvests, 'harvest')}), so the harvests are "
            "by the rule of thumb, with a band as wide as it was off here."
        )
    words = told.rests_on.words
    yield f"{words[:1].upper()}{words[1:]}."
    yield from skill_lines(skill)
    yield from (one.words for one in told.does_not_fit[:most])
    if len(told.does_not_fit) > most:
        yield f"{count(len(told.does_not_fit) - most, 'more entry', 'more entries')} do not fit either."
    if told.narrow_most is not None:
        yield told.narrow_most.words


def skill_lines(skill: Skill) -> Iterator[str]:
    """How past forecasts did."""
    if not skill.harvests:
        return
    yield (
        f"Of {count(skill.harvests, 'past forecast')} the band held {skill.held}; 4 in 5 are meant to. Off "
        f"by {error_words(skill.model_error)} on the whole, the rule of thumb by "
        f"{error_words(skill.thumb_error)}."
    )


def error_words(error: float | None) -> str:
    """A mean size of logarithms as percent."""
    return "nobody knows how much" if error is None else f"{round(100 * expm1(error))} %"
