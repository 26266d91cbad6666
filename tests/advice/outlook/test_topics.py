"""What an outlook tells of by topic, what a band rests on, how far the work is, and sizes of a what-if."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from tests.advice.outlook.keepers import measured, truth
from tests.builders import a_profile, moment
from trayturn.advice.outlook import outlook
from trayturn.advice.outlook.basis import MOST_POINTS, basis_lines
from trayturn.advice.outlook.making import AFTER_FIT
from trayturn.advice.outlook.misfits import FAR_SD
from trayturn.advice.outlook.progress import work_words
from trayturn.advice.outlook.result import Misfit, Outlook, Point, PointKind
from trayturn.advice.outlook.scored import past_lines, verdict
from trayturn.advice.outlook.sizes import LENGTHS, SIZES, next_kind, resized, usual
from trayturn.advice.outlook.topics import (
    figure_of,
    heading_of,
    lines_of,
    misfits_of,
    name_of,
    points_of,
    topics,
)
from trayturn.advice.outlook.what_if import KINDS, WhatIf, read_what_if
from trayturn.domain.replay import replay
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import UnitError

DAYS = 230


@cache
def told() -> Outlook:
    """A keeper of 230 days who weighs and feels, with a few draws."""
    return outlook(measured(DAYS, truth(3)), moment(DAYS, 18), draws=40)


@cache
def stack() -> Stack:
    return replay(measured(DAYS, truth(3)), moment(DAYS, 18))


def said(topic: str, outlook: Outlook | None = None) -> str:
    return "\n".join(lines_of(topic, outlook or told(), stack()))


def odd(kind: PointKind) -> Misfit:
    """A reading of tray A that lies far off."""
    return Misfit(moment(DAYS - 10), kind, "A", 0.2, 0.7, -4.0, True, 3, f"The {kind} is odd.")


def test_a_topic_for_every_series_the_trays_from_the_top_down_and_the_past() -> None:
    found = topics(told())
    trays = [tray.id for tray in reversed(stack().trays)]
    assert found == (
        *("castings", "harvests", "worms", "sump"),
        *(f"moisture:{tray}" for tray in trays),
        "past",
    )
    assert {topic for topic in found if topic in told().series} == set(told().series)
    assert [name_of(topic) for topic in found][:4] == ["Castings", "Harvests", "Worms", "Sump water"]
    assert name_of(f"moisture:{trays[0]}") == f"Moisture {trays[0]}"
    assert len({heading_of(topic, told()) for topic in found}) == len(found)


def test_a_bin_without_a_tray_has_no_topic() -> None:
    assert topics(outlook(a_profile(), moment(3), draws=20)) == ()


def test_every_topic_has_sentences_and_a_figure_with_a_band() -> None:
    for topic in topics(told()):
        assert said(topic)
        assert figure_of(topic, told(), Units.METRIC)
    assert "kg to" in figure_of("castings", told(), Units.METRIC)
    assert "lb to" in figure_of("castings", told(), Units.US)
    assert figure_of("past", told(), Units.METRIC).endswith(f"of {told().rests_on.skill.harvests} held")


def test_the_next_harvest_has_its_window() -> None:
    one = told().harvests[0]
    assert (one.date - one.early).days == round(told().plan.turn_off_days)  # type: ignore[union-attr]
    assert "A turn may be 2 days early or late: between" in said("castings")
    assert f"Tray {one.tray}, separated" in said("castings").splitlines()[0]
    assert f"In tray {told().finishing} by now: about" in said("castings")


def test_water_scraps_and_moisture_are_told() -> None:
    assert "The sump holds" in said("sump")
    assert f"Tray {told().bottom_tray}, the lowest," in said("sump")
    assert "of your scraps a week" in said("worms")
    assert f"Tray {told().bottom_tray}, the lowest," in said(f"moisture:{told().bottom_tray}")
    upper = stack().trays[-1].id
    assert "% now" in said(f"moisture:{upper}")
    assert "lowest" not in said(f"moisture:{upper}")


def test_a_tray_that_leaves_says_when() -> None:
    leaving = told().harvests[0]
    fan = told().series[f"moisture:{leaving.tray}"]
    assert told().on(fan.days[-1] + 1).date() == leaving.date.date()
    assert "It leaves the stack" in said(f"moisture:{leaving.tray}")
    now = replace(told(), harvests=(replace(leaving, date=told().as_of),))
    assert "It leaves the stack today" in said(f"moisture:{leaving.tray}", now)
    never = replace(told(), harvests=())
    assert "It leaves" not in said(f"moisture:{leaving.tray}", never)


def test_by_the_rule_of_thumb_there_are_harvests_but_no_course_of_castings() -> None:
    series = {name: fan for name, fan in told().series.items() if name != "castings"}
    thumb = replace(told(), used="rule of thumb", series=series)
    assert topics(thumb)[0] == "harvests"
    assert "By the rule of thumb" in said("harvests", thumb)
    assert "By the rule of thumb" not in said("harvests")


def test_points_go_with_their_own_series() -> None:
    moist = points_of("moisture:A", told())
    assert {(one.kind, one.tray) for one in moist} <= {("moisture", "A")}
    assert points_of("castings", told()) == ()
    every = [one for topic in topics(told()) for one in points_of(topic, told())]
    assert len(every) == len(set(every))


def test_an_entry_that_does_not_fit_is_named_with_its_series() -> None:
    point = Point(moment(DAYS - 10), 0.2, "moisture", "A", -4.0, 3)
    found = odd("moisture")
    bad = replace(told(), points=(point,), does_not_fit=(found,))
    assert misfits_of("moisture:A", bad) == (found,)
    assert misfits_of("worms", bad) == ()
    assert found.words in said("moisture:A", bad)
    weight = replace(bad, does_not_fit=(odd("castings"),))
    assert "The castings is odd." in said("castings", weight)


def test_what_a_band_rests_on() -> None:
    points = tuple(
        Point(moment(day), 0.7, "moisture", "A", off, entry)
        for entry, (day, off) in enumerate([(10, 0.2), (20, -1.5), (30, FAR_SD + 1), (40, None)], start=1)
    )
    lines = list(basis_lines("moisture:A", replace(told(), points=points, does_not_fit=()), Units.METRIC))
    assert "4 measurements of this series:" in lines
    place = lines.index("4 measurements of this series:")
    assert [line.split(": ", 1)[1] for line in lines[place + 1 : place + 5]] == [
        "70 %, not held against the model (entry 4)",
        "70 %, does not fit, 4 times the usual error more (entry 3)",
        "70 %, 1.5 times the usual error less (entry 2)",
        "70 %, within the usual error (entry 1)",
    ]
    assert any(line.startswith("Rests on ") for line in lines)
    assert any(line.startswith("As planned: ") for line in lines)
    assert set(told().plan.said) <= set(lines)  # type: ignore[union-attr]
    assert set(told().assumed) <= set(lines)


def test_of_many_measurements_the_latest_are_listed() -> None:
    points = tuple(Point(moment(day), 0.7, "moisture", "A", 0.0, day) for day in range(1, MOST_POINTS + 4))
    lines = list(basis_lines("moisture:A", replace(told(), points=points), Units.METRIC))
    assert sum("(entry " in line for line in lines) == MOST_POINTS
    assert "and 3 before." in lines


def test_past_forecasts_in_words() -> None:
    assert told().past
    lines = list(basis_lines("past", told(), Units.METRIC))
    for one in told().past:
        assert set(past_lines(one, told().as_of, Units.METRIC)) <= set(lines)
    assert verdict(told().rests_on.skill) in said("past")


@pytest.mark.parametrize(
    ("done", "past", "words"),
    [
        (0, 3, "fitting, 1 of 5"),
        (3, 3, "fitting, 3 of 5"),
        (5, 0, "fitting, 5 of 5"),
        (6, 3, "looking back at past forecasts, 1 of 3"),
        (8, 3, "looking back at past forecasts, 3 of 3"),
        (9, 3, "running the plan ahead"),
        (6, 0, "running the plan ahead"),
        (10, 3, "finding what to measure next"),
    ],
)
def test_how_far_the_work_is(done: int, past: int, words: str) -> None:
    assert work_words(done, 6 + past + AFTER_FIT) == words


def test_the_steps_that_are_told_are_the_steps_that_are_done() -> None:
    heard: list[str] = []
    outlook(
        measured(DAYS, truth(3)),
        moment(DAYS, 18),
        draws=41,
        progress=lambda *at: heard.append(work_words(*at)),
    )
    assert heard[0] == "fitting, 1 of 5"
    assert "fitting, 5 of 5" in heard
    assert [words for n, words in enumerate(heard) if n == 0 or words != heard[n - 1]] == sorted(
        set(heard), key=heard.index
    )


def test_one_kind_after_another_and_back_to_none() -> None:
    seen, what = [], next_kind(None)
    while what is not None:
        seen.append(what.kind)
        assert what == usual(what.kind) == read_what_if(what.kind) or what.times == what.factor
        what = next_kind(what)
    assert tuple(seen) == KINDS


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_goes_up_and_down_its_steps_and_stays_at_the_ends(kind: str) -> None:
    steps = SIZES.get(kind, LENGTHS)
    what = usual(kind)
    for _ in range(20):
        what = resized(what, -1)
    seen = [what]
    for _ in range(20):
        if (what := resized(what, 1)) != seen[-1]:
            seen.append(what)
    sizes = [one.factor if kind in SIZES else one.days for one in seen]
    assert tuple(sizes) == steps
    assert usual(kind) in seen
    assert len({one.said(Units.METRIC) for one in seen}) == len(steps)


@pytest.mark.parametrize(
    ("text", "what", "words"),
    [
        ("scraps=1.5", WhatIf("double-scraps", times=1.5), "1.5 times the scraps"),
        ("worms=0.25", WhatIf("half-worms", times=0.25), "a quarter of the worms"),
        ("bedding=3x", WhatIf("double-bedding", times=3.0), "3 times the bedding at each meal"),
        ("double-scraps", WhatIf("double-scraps"), "twice the scraps"),
        ("half-worms", WhatIf("half-worms"), "half the worms"),
    ],
)
def test_how_many_times_as_much_is_typed(text: str, what: WhatIf, words: str) -> None:
    assert read_what_if(text) == what
    assert what.said(Units.METRIC) == words


@pytest.mark.parametrize("text", ["scraps", "scraps=0", "worms=-1", "bedding=11", "scraps=2kg"])
def test_an_odd_number_of_times_is_refused(text: str) -> None:
    with pytest.raises(UnitError):
        read_what_if(text)
