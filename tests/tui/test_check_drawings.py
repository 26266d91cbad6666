"""The scale and the chart as text: the same told by shape alone, in plain signs too."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.tui.widgets.scale import Scale, bar, numbers, place, pointer, scale_lines
from trayturn.tui.widgets.spans import spans_content
from trayturn.tui.widgets.spark import columns_of, ends, spark

MOISTURE = Scale((40, 100), (60, 90), (70, 85))


def told(line: tuple[tuple[str, str], ...]) -> str:
    return "".join(text for text, _ in line)


def test_the_scale_shows_limits_the_best_band_and_both_readings() -> None:
    drawn = [told(line) for line in scale_lines(MOISTURE, (52, "now 52"), (76, "last 76"), [], 31)]
    assert drawn == [
        "      ▼ now 52",
        "··········├────━━━━━━━━──┤·····",
        "",
        "                  △ last 76",
    ]


def test_in_plain_signs_the_same_shapes_stand_apart() -> None:
    text = bar(MOISTURE, 31, plain=True)
    assert text.isascii()
    assert (text.index("["), text.index("]"), text.index("="), text.rindex("=")) == (10, 25, 15, 22)
    assert pointer(52, "now", MOISTURE, 31, True, plain=True) == "      v now"
    assert pointer(76, "last", MOISTURE, 31, False, plain=True).strip()[0] == "^"


@given(st.floats(-1000, 1000), st.integers(8, 60), st.booleans())
def test_a_pointer_stays_on_the_scale_and_keeps_its_words(number: float, width: int, now: bool) -> None:
    text = pointer(number, "now 9", MOISTURE, width, now)
    assert "now 9" in text
    column = place(number, MOISTURE.shown, width)
    assert 0 <= column < width
    assert (text.index("▼" if now else "△")) >= min(column, 5)


def test_figures_stand_in_their_places_and_never_touch() -> None:
    line = numbers([(60, "60"), (70, "70"), (85, "85"), (90, "90")], MOISTURE, 31)
    assert line.split() == ["60", "70", "85", "90"]
    crowded = numbers([(60, "60"), (62, "62"), (90, "90")], MOISTURE, 31)
    assert crowded.split() == ["60", "90"]


def test_a_chart_runs_by_time_and_its_last_reading_stands_at_the_end() -> None:
    assert columns_of([0, 5, 10], 11) == [0, 5, 10]
    assert columns_of([7], 11) == [10]
    [line] = spark([0, 5, 10], [0, 4, 8], 11, least_span=1)
    assert (line[0], line[5], line[10], len(line)) == ("▁", "▅", "█", 11)


def test_a_chart_in_plain_signs_is_told_by_height() -> None:
    [line] = spark([0, 5, 10], [0, 4, 8], 11, plain=True)
    assert line == "_    -    ^"
    tall = spark([0, 10], [0, 8], 5, 3, plain=True)
    assert tall == ["    |", "    |", ".   |"]


def test_errors_of_reading_are_not_blown_up() -> None:
    assert ends([70, 74], 20) == (62, 82)
    [line] = spark([0, 1], [70, 74], 2, least_span=20)
    assert set(line) <= set("▃▄▅▆")
    assert spark([], [], 10, 2) == ["", ""]


@given(
    st.lists(st.tuples(st.floats(0, 1e9), st.floats(-100, 1e5)), min_size=1, max_size=12),
    st.integers(1, 60),
    st.integers(1, 8),
    st.booleans(),
)
def test_any_chart_fits_and_shows_every_column(
    readings: list[tuple[float, float]], width: int, height: int, plain: bool
) -> None:
    readings.sort()
    times, values = [time for time, _ in readings], [value for _, value in readings]
    lines = spark(times, values, width, height, plain=plain)
    assert len(lines) == height
    assert all(len(line) <= width for line in lines)
    assert {n for n, sign in enumerate(lines[-1]) if sign != " "} == set(columns_of(times, width))


def test_spans_are_no_markup() -> None:
    assert str(spans_content([(("[red]", "act"), (" [/", "plain")), (("x", "muted"),)])) == "[red] [/\nx"


@pytest.mark.parametrize("width", [8, 20, 36, 42])
def test_a_scale_is_as_wide_as_it_is_asked_to_be(width: int) -> None:
    assert len(bar(MOISTURE, width)) == width
