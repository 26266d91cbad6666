"""A comparison in words and columns."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.bands import rough_mass
from trayturn.advice.comparing.result import Aim, Comparison, Row, Way
from trayturn.advice.turn_day.times import minutes_words
from trayturn.domain.setup import Units
from trayturn.domain.words import count, listed

COLUMNS = ("way", "castings a month", "a harvest", "moist", "hatched", "sump full", "bedding", "work")


def way_words(way: Way, units: Units, *, scraps: bool = False) -> str:
    """`4 trays, every 60 days`."""
    told = f"{count(way.trays, 'tray')}, every {round(way.every_days)} days"
    return f"{told}, {rough_mass(way.scraps_kg_per_week, units)} a week" if scraps else told


def several_scraps(found: Comparison) -> bool:
    """Whether the ways differ in how much is fed."""
    return len({row.way.scraps_kg_per_week for row in found.rows}) > 1


def cells(row: Row, units: Units) -> tuple[str, ...]:
    """The figures of a row, in the order of `COLUMNS` without the first."""
    month, harvest = row.castings_kg_per_month, row.castings_kg
    return (
        f"{rough_mass(month.p10, units)} to {rough_mass(month.p90, units)}",
        f"{rough_mass(harvest.p10, units)} to {rough_mass(harvest.p90, units)}",
        f"{100 * row.moisture.p50:.0f} %",
        f"{100 * row.hatched.p50:.0f} %",
        f"{round(100 * row.sump_full)} %",
        rough_mass(row.bedding_kg_per_month, units),
        minutes_words(row.work_min),
    )


def sentences(found: Comparison, units: Units) -> Iterator[str]:
    """What is best for each aim, how sure that is, and what it rests on."""
    scraps = several_scraps(found)
    for best in found.best:
        row = found.rows[best.place]
        others = [way_words(found.rows[n].way, units, scraps=scraps) for n in best.as_good]
        way = way_words(row.way, units, scraps=scraps)
        told = f"{best.aim.capitalize()}: {way} ({_measure(best.aim, row, units)})"
        tie = f", and as good as far as can be told: {listed(others)}" if others else ""
        yield f"{told}{tie}."
    yield f"Each way is run for two years and the second is told; {found.rests_on.words}."


def _measure(aim: Aim, row: Row, units: Units) -> str:
    if aim is Aim.CASTINGS:
        return f"about {rough_mass(row.castings_kg_per_month.p50, units)} a month"
    if aim is Aim.WORK:
        return f"{minutes_words(row.work_min)} of hands a month"
    if aim is Aim.WORMS:
        return f"about {rough_mass(row.worms_kg.p50, units)} of worms"
    return f"its worms take all in {round(100 * row.takes_all)} % of draws"


def story(row: Row, units: Units) -> list[str]:
    """All of one way, a line each."""
    month, harvest = row.castings_kg_per_month, row.castings_kg
    return [
        f"{way_words(row.way, units)}, {rough_mass(row.way.scraps_kg_per_week, units)} of scraps a week.",
        f"Castings: {rough_mass(month.p10, units)} to {rough_mass(month.p90, units)} a month, "
        f"{rough_mass(harvest.p10, units)} to {rough_mass(harvest.p90, units)} at a harvest (4 in 5).",
        f"At the harvest: {row.age_days:.0f} days old, {100 * row.moisture.p10:.0f} to "
        f"{100 * row.moisture.p90:.0f} % moist; {100 * row.hatched.p50:.0f} % of its cocoons hatched before.",
        f"Worms: {rough_mass(row.worms_kg.p10, units)} to {rough_mass(row.worms_kg.p90, units)}; they take "
        f"all scraps in {round(100 * row.takes_all)} % of draws.",
        f"Sump: fills between two turns in {round(100 * row.sump_full)} % of draws.",
        f"Dry bedding: {rough_mass(row.bedding_kg_per_month, units)} a month.",
        f"Work: {minutes_words(row.work_min)} of hands a month (our figures for each task).",
    ]
