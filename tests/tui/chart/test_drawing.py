"""A chart in cells: every sign where its figure is, told apart without colour, and nothing outside."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.tui.chart.test_plot import band
from trayturn.tui.widgets.chart.bars import bar
from trayturn.tui.widgets.chart.drawing import (
    AXIS,
    DOT,
    MEDIAN,
    MIDDLE,
    ODD,
    PLAIN,
    SIGNS,
    WIDE,
    draw,
    runs,
    text,
)
from trayturn.tui.widgets.chart.plot import Dot, Line, Mark, Plot

FLAT = Plot("kg", band(*[4.0] * 31, spread=1.0), ticks=(Mark(0, "Nov"), Mark(15, "Dec")))


def test_a_flat_band_is_drawn_as_it_is() -> None:
    assert text(draw(FLAT, 24, 9)).splitlines() == [
        " 10┤",
        "   │",
        "   │░░░░░░░░░░░░░░░░░░░░",
        "  5┤▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒",
        "   │━━━━━━━━━━━━━━━━━━━━",
        "   │░░░░░░░░░░░░░░░░░░░░",
        "  0┤",
        "   └────────────────────",
        "kg  Nov       Dec",
    ]


def test_readings_and_marks_stand_on_their_day() -> None:
    plot = Plot(
        "kg",
        band(*[4.0] * 31),
        dots=(Dot(0, 6), Dot(30, 0, fits=False)),
        marks=(Mark(15, "today"),),
        lines=(Line((0, 30), (2, 2)),),
    )
    rows = draw(plot, 24, 8)
    drawn = text(rows).splitlines()
    assert drawn[2][4] == SIGNS[DOT]
    assert drawn[6][23] == SIGNS[ODD]
    assert "today" in drawn[7]
    assert [row[14] for row in drawn[:2]] == ["│", "│"]
    assert rows[7][0] == ("k", AXIS)


def test_letters_only_has_a_sign_for_each_thing() -> None:
    assert text(draw(FLAT, 30, 9, plain=True)).isascii()
    assert len(set(PLAIN.values())) == len(PLAIN)
    assert len(set(SIGNS.values())) == len(SIGNS)


def test_too_little_room_or_nothing_to_show_is_left_blank() -> None:
    assert text(draw(FLAT, 15, 9)).strip() == ""
    assert text(draw(FLAT, 40, 4)).strip() == ""
    assert text(draw(Plot("kg", band()), 40, 12)).strip() == ""


@given(
    st.lists(st.floats(0, 1e4), min_size=1, max_size=60),
    st.floats(0, 50),
    st.integers(0, 100),
    st.integers(0, 30),
    st.lists(st.builds(Dot, st.floats(-50, 100), st.floats(0, 1e4)), max_size=5),
)
def test_no_drawing_overflows(
    middles: list[float], spread: float, width: int, height: int, dots: list[Dot]
) -> None:
    plot = Plot("litres", band(*middles, spread=spread), dots=tuple(dots), marks=(Mark(99, "a turn"),))
    rows = draw(plot, width, height)
    assert [len(row) for row in rows] == [width] * height
    assert all("".join(sign for sign, _ in row) == "".join(part for part, _ in runs(row)) for row in rows)
    if width >= 16 and height >= 4:
        assert {look for row in rows for _, look in row} & {MEDIAN, DOT, ODD}


def test_bands_beside_each_other_share_a_scale() -> None:
    assert bar((1, 2, 3, 4, 5), 10, 11) == " ░▒━▒░"
    assert bar((1, 2, 3, 4, 5), 10, 11, came=8) == " ░▒━▒░  ●"
    assert bar((1, 2, 3, 4, 5), 10, 11, plain=True) == " .:=:."
    assert bar((0, 0, 0, 0, 0), 0, 5) == "━"
    assert bar((8, 9, 20, 30, 40), 10, 11)[-1] == SIGNS[MEDIAN]


@pytest.mark.parametrize("look", [WIDE, MIDDLE])
def test_the_half_lies_inside_the_wide_band(look: str) -> None:
    columns = [x for x, sign in enumerate(bar((1, 3, 5, 7, 9), 10, 51)) if sign == SIGNS[look]]
    assert (min(columns), max(columns)) == ((5, 45) if look == WIDE else (15, 35))
