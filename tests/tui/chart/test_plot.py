"""What a chart shows, as data: bands between days, and the figures of an axis."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.tui.widgets.chart.plot import Band, Dot, Line, Plot, said, scale


def band(*middles: float, spread: float = 1.0) -> Band:
    days = tuple(float(day) for day in range(len(middles)))
    return Band(days, *(tuple(middle + spread * by for middle in middles) for by in (-2, -1, 0, 1, 2)))


def test_a_day_between_two_others_lies_between_their_figures() -> None:
    assert band(2, 4).at(0.5) == (1, 2, 3, 4, 5)
    assert band(2, 4).at(1) == (2, 3, 4, 5, 6)
    assert band(2, 4).at(0) == (0, 1, 2, 3, 4)
    assert band(2, 4).at(1.01) is None
    assert band().at(0) is None
    assert band(3).at(0) == (1, 2, 3, 4, 5)


def test_a_chart_takes_in_all_that_is_on_it() -> None:
    plot = Plot("kg", band(2, 4), dots=(Dot(-3, 9),), lines=(Line((0, 5), (1, 1)),), limit=12)
    assert plot.days == (-3, 5)
    assert plot.values == (0, 12)
    assert Plot("%", band(60, 70), from_zero=False).values == (58, 72)
    assert Plot("kg", band()).empty
    assert not Plot("kg", band(), dots=(Dot(0, 1),)).empty
    assert Plot("kg", band()).values == (0, 1)


@given(st.floats(-1e4, 1e4), st.floats(1e-3, 1e4), st.integers(2, 9))
def test_an_axis_takes_in_its_ends_with_few_even_steps(low: float, span: float, most: int) -> None:
    values = scale(low, low + span, most)
    assert 2 <= len(values) <= max(2, most)
    slack = 1e-6 * max(1.0, abs(low), span)
    assert values[0] <= low + slack
    assert values[-1] >= low + span - slack
    steps = [after - before for before, after in pairwise(values)]
    assert max(steps) - min(steps) < slack


@pytest.mark.parametrize(
    ("low", "high", "most", "values"),
    [(0, 14, 4, [0, 5, 10, 15]), (0, 1, 3, [0, 0.5, 1]), (58, 82, 4, [40, 60, 80, 100])],
)
def test_an_axis_has_round_figures(low: float, high: float, most: int, values: list[float]) -> None:
    assert scale(low, high, most) == values


def test_figures_have_the_decimals_that_tell_them_apart() -> None:
    assert said([0, 5, 10]) == ["0", "5", "10"]
    assert said([0, 0.5, 1]) == ["0.0", "0.5", "1.0"]
    assert said([0, 0.25]) == ["0.00", "0.25"]
    assert said([3]) == ["3"]
