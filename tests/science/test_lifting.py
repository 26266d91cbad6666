"""The revised NIOSH lifting equation against its manual's tables and examples (DHHS (NIOSH) 94-110)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.science import lifting as nl
from trayturn.science.errors import OutOfRange
from trayturn.science.lifting_tables import FREQUENCY, RATES, Duration, Grip

HEIGHTS = st.floats(0, 175)


def test_package_inspection_the_manuals_example_4() -> None:
    """Example 4, pp. 44-46, US units: multipliers to two places, RWL 34.9 lb as printed (34.8 unrounded)."""
    origin, _ = nl.lift(26, 10, 22, 59, per_minute=3, grip=Grip.FAIR, form=nl.US)
    shown = [round(value, 2) for value in (origin.hm, origin.vm, origin.dm, origin.am, origin.fm, origin.cm)]
    assert shown == [1.0, 0.94, 0.87, 1.0, 0.88, 0.95]
    assert origin.rwl == pytest.approx(34.9, abs=0.15)
    assert origin.li == pytest.approx(0.7, abs=0.05)


@pytest.mark.parametrize(
    ("form", "width", "height", "reach"),
    [(nl.METRIC, 40, 25, 40), (nl.METRIC, 40, 24, 45), (nl.US, 16, 10, 16), (nl.US, 16, 9, 18)],
)
def test_the_reach_over_a_load(form: nl.Form, width: float, height: float, reach: float) -> None:
    """Manual, p. 8: H = 20 + W/2 cm (8 + W/2 in); 25 + W/2 (10 + W/2) where V is below 25 cm (10 in)."""
    assert nl.reach_over(width, height, form) == reach


def test_the_product_of_multipliers_as_printed_by_ccohs() -> None:
    """CCOHS, NIOSH lifting equation, horizontal factor: 23 x .50 x .95 = 10.9 kg (its DM is printed .95)."""
    assert nl.METRIC.load * nl.horizontal(50) * 1.0 * 0.95 == pytest.approx(10.9, abs=0.05)


@pytest.mark.parametrize(
    ("work", "rest", "expected"),
    [
        ([30, 45], [10], Duration.MODERATE),  # manual, p. 14
        ([30, 45], [30], Duration.SHORT),  # manual, p. 14
        ([120, 120], [36], Duration.MODERATE),  # manual, p. 14: two hours need 36 minutes
        ([120, 120], [35], Duration.LONG),
        ([60], [], Duration.SHORT),
        ([61], [], Duration.MODERATE),
        ([300], [], Duration.LONG),
    ],
)
def test_duration_classes(work: list[float], rest: list[float], expected: Duration) -> None:
    assert nl.duration_of(work, rest) is expected


@pytest.mark.parametrize(
    ("rule", "values"),
    [
        (nl.horizontal, {25: 1.00, 30: 0.83, 40: 0.63, 50: 0.50, 60: 0.42, 63: 0.40, 64: 0.0, 10: 1.0}),
        (nl.vertical, {0: 0.78, 20: 0.84, 50: 0.93, 75: 1.00, 100: 0.93, 150: 0.78, 175: 0.70, 176: 0.0}),
        (
            nl.distance,
            {25: 1.00, 40: 0.93, 55: 0.90, 70: 0.88, 100: 0.87, 145: 0.85, 175: 0.85, 176: 0.0, 5: 1.0},
        ),
        (nl.asymmetry, {0: 1.00, 15: 0.95, 30: 0.90, 45: 0.86, 60: 0.81, 90: 0.71, 135: 0.57, 136: 0.0}),
    ],
)
def test_multiplier_tables(rule: object, values: dict[float, float]) -> None:
    """Tables 1 to 4 of the manual, metric, to two places (halves up)."""
    assert callable(rule)
    assert {at: math.floor(100 * rule(at) + 0.5) / 100 for at in values} == values


def test_frequency_reads_between_the_rows() -> None:
    assert nl.frequency(2.5, Duration.SHORT, 80) == pytest.approx((0.91 + 0.88) / 2)
    assert nl.frequency(0.01, Duration.LONG, 0) == 0.85
    assert nl.frequency(80 / 15, Duration.SHORT, 80) == pytest.approx(
        0.80 - 0.05 / 3
    )  # manual, p. 16: 5.33 a minute
    assert nl.frequency(15.01, Duration.SHORT, 80) == 0
    assert nl.frequency(13, Duration.SHORT, 74.9) == 0 < nl.frequency(13, Duration.SHORT, 75)


def test_every_row_of_the_frequency_table_has_a_rate() -> None:
    assert {len(row) for row in FREQUENCY.values()} == {len(RATES)}


@given(st.floats(25, 63), HEIGHTS, HEIGHTS, st.floats(0, 135), st.floats(0.2, 8), st.sampled_from(Grip))
def test_nothing_makes_more_liftable_than_the_load_constant(
    reach: float, start: float, end: float, twist: float, rate: float, grip: Grip
) -> None:
    for one in nl.lift(10, reach, start, end, twist_deg=twist, per_minute=rate, grip=grip):
        assert 0 <= one.rwl <= 23
        assert one.li == (math.inf if one.rwl == 0 else 10 / one.rwl)


@given(st.floats(25, 62), HEIGHTS, HEIGHTS)
def test_a_longer_reach_or_more_twist_never_helps(reach: float, start: float, end: float) -> None:
    near, _ = nl.lift(10, reach, start, end)
    assert nl.lift(10, reach + 1, start, end)[0].rwl <= near.rwl
    assert nl.lift(10, reach, start, end, twist_deg=30)[0].rwl <= near.rwl


def test_advice_says_what_to_change_and_never_leaves_out_the_doctor() -> None:
    light = nl.advice(*nl.lift(2, 25, 75, 100))
    heavy = nl.advice(*nl.lift(40, 50, 20, 150, twist_deg=45))
    assert light[0].startswith("Within")
    assert heavy[0].startswith("Far above")
    assert len(heavy) == 6
    assert all("doctor" in words[-1] for words in (light, heavy))


@pytest.mark.parametrize("wrong", [-1.0, math.nan, math.inf, 1e9])
def test_odd_input_is_refused(wrong: float) -> None:
    for call in (
        lambda: nl.lift(wrong, 25, 55, 100),
        lambda: nl.horizontal(wrong),
        lambda: nl.vertical(wrong),
        lambda: nl.duration_for(wrong),
        lambda: nl.asymmetry(wrong),
    ):
        with pytest.raises(OutOfRange):
            call()
