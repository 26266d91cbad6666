"""What the outlook's screen draws, as plain data: the chart's parts, bands beside each other, signs, room."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from tests.builders import a_profile, a_usual_bin, moment
from tests.tui.outlooks import AHEAD, five, made_up
from trayturn.advice.outlook.result import Outlook
from trayturn.advice.outlook.topics import topics
from trayturn.domain.replay import replay
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.tui.screens.outlook.asking import Asked
from trayturn.tui.screens.outlook.bands import BandRow, band_lines, harvest_rows, past_rows
from trayturn.tui.screens.outlook.fitted import MORE, fitting
from trayturn.tui.screens.outlook.plots import PAST_DAYS, day_of, plot_of
from trayturn.tui.screens.outlook.told_rows import as_bands, legend, topic_rows

NOW = moment(251)
"""The seventh of November, so that the reading that does not fit lies six days back."""
PROFILE = a_profile(*a_usual_bin(), trays="ABC")


def told() -> Outlook:
    return made_up(Asked(PROFILE, NOW, None))


def stack(**setup: str) -> Stack:
    return replay(a_profile(*a_usual_bin(), trays="ABC", **setup), NOW)


def test_the_chart_shows_little_of_the_past_and_all_that_is_to_come() -> None:
    plot = plot_of("sump", told(), stack())
    assert plot.days == (-PAST_DAYS, AHEAD)
    assert plot.band.at(0.0) == pytest.approx(tuple(five(1.0)))
    assert plot.limit == stack().setup.sump_capacity_l
    assert plot.unit == "l"


def test_a_reading_that_does_not_fit_has_a_sign_of_its_own() -> None:
    plot = plot_of("sump", told(), stack())
    assert [(dot.day, dot.value, dot.fits) for dot in plot.dots] == [(-30, 0.5, True), (-6, 3.5, False)]
    assert "× does not fit" in legend("sump", plot, compared=False, plain=False)
    assert "x does not fit" in legend("sump", plot, compared=False, plain=True)
    assert "┄ full" in legend("sump", plot, compared=False, plain=False)


def test_readings_are_shown_with_their_own_series_alone() -> None:
    assert plot_of("worms", told(), stack()).dots == ()
    [dot] = plot_of("moisture:C", told(), stack()).dots
    assert (dot.day, round(dot.value)) == (-9, 72)
    assert plot_of("moisture:B", told(), stack()).dots == ()


def test_today_and_the_turns_are_marked_and_named_where_there_is_room() -> None:
    marks = plot_of("sump", told(), stack()).marks
    assert [(mark.day, mark.word) for mark in marks] == [
        (-20, ""),
        (40, "turn"),
        (95, "turn"),
        (0, "today"),
    ]


def test_months_are_named_the_first_and_each_january_with_the_year() -> None:
    ticks = plot_of("sump", told(), stack()).ticks
    assert [tick.word for tick in ticks] == ["Sep 2026", "Oct", "Nov", "Dec", "Jan 2027", "Feb"]
    for tick in ticks:
        assert (NOW.date() + timedelta(days=tick.day)).day == 1


def test_days_are_counted_as_the_keepers_clock_has_them() -> None:
    assert day_of(moment(250, 23, 59), NOW) == -1
    assert day_of(moment(252, 0, 1), NOW) == 1
    assert NOW.date() == date(2026, 11, 7)


def test_us_units_on_every_axis() -> None:
    us = stack(units="us")
    worms, sump = plot_of("worms", told(), us), plot_of("sump", told(), us)
    assert (worms.unit, sump.unit, plot_of("moisture:A", told(), us).unit) == ("lb", "qt", "%")
    middle = worms.band.at(0.0)
    assert middle is not None
    assert middle[2] == pytest.approx(2.20462, rel=1e-4)  # 1 kg, NIST SP 811
    assert sump.limit == pytest.approx(us.setup.sump_capacity_l * 1.05669, rel=1e-4)  # quarts, NIST SP 811


def test_todays_plan_is_a_line_from_today_on_and_castings_only_of_the_same_tray() -> None:
    today = told()
    [line] = plot_of("worms", today, stack(), today).lines
    assert (line.days[0], line.days[-1], line.values[0]) == (0, AHEAD, 1.0)
    assert plot_of("worms", today, stack()).lines == ()
    assert len(plot_of("castings", today, stack(), today).lines) == 1
    assert plot_of("castings", today, stack(), replace(today, finishing="B")).lines == ()


def test_every_topic_is_drawn() -> None:
    found = topics(told())
    assert found == (
        *("castings", "harvests", "worms", "sump", "moisture:B", "moisture:A", "moisture:C", "past"),
    )
    for topic in found:
        assert as_bands(topic) or not plot_of(topic, told(), stack()).empty
    assert [row.key for row in topic_rows(told(), Units.METRIC, wide=False)] == list(found)
    wide = {row.key: row.lines[1][0][0].strip() for row in topic_rows(told(), Units.METRIC, wide=True)}
    assert wide["castings"] == "2.4 kg to 3.6 kg"
    assert wide["moisture:A"] == "56 to 84 %"
    assert wide["past"] == "1 of 2 held"
    assert max(map(len, wide.values())) <= 23


def test_past_forecasts_with_what_came() -> None:
    rows = list(past_rows(told(), Units.METRIC))
    assert [(row.label, row.words) for row in rows] == [
        ("A 8 Sep", "3.4 kg, above"),
        ("C 10 Jun", "2.6 kg, held"),
    ]
    head, first, second = band_lines(rows, 120, 5, units=Units.METRIC).splitlines()
    assert head.split() == ["0", "3.4", "kg"]
    assert first.index("●") > first.rindex("░")
    assert second.index("░") < second.index("━") < second.index("●") < second.rindex("░")
    assert second.endswith("2.6 kg, held")


def test_harvests_to_come_beside_todays_plan() -> None:
    alone = list(harvest_rows(told(), None, Units.METRIC))
    assert [row.mark for row in alone] == [None, None]
    assert [row.words for row in alone] == ["about 3 kg", "about 2 kg"]
    assert [row.mark for row in harvest_rows(told(), told(), Units.METRIC)] == [3.0, 2.0]
    assert alone[1].label == "B 10 Feb 2027"
    assert "● as planned" in legend("harvests", None, compared=True, plain=False)
    assert "as planned" not in legend("harvests", None, compared=False, plain=False)


def test_as_many_bands_as_have_room() -> None:
    rows = [BandRow(f"A {n}", five(1.0), None, "") for n in range(20)]
    assert len(band_lines(rows, 60, 6, units=Units.METRIC).splitlines()) == 6
    assert band_lines([], 60, 6, units=Units.METRIC) == ""
    assert band_lines(rows, 60, 6, units=Units.METRIC, plain=True).isascii()


def test_only_whole_sentences_are_said_and_then_where_the_rest_is() -> None:
    lines = ["one two three four", "five", "six"]
    assert fitting(lines, 10, 4) == "\n".join(lines)
    assert fitting(lines, 10, 3) == f"{lines[0]}\n{MORE}"
    assert fitting(lines, 10, 1) == MORE
    assert fitting([], 10, 1) == ""
