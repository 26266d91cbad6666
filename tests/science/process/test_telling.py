"""Bands, and which measurement would tell most."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.science.process.keepers import Habits, stack
from trayturn.science.errors import OutOfRange
from trayturn.science.process.events import Measured
from trayturn.science.process.fitting import OWN_SPREAD
from trayturn.science.process.rates import draw_rates
from trayturn.science.process.telling import as_weighed, most_telling, narrowing, percentiles, thumb_kg


@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=40), st.lists(st.floats(0, 100), min_size=1))
def test_percentiles_are_those_of_numpy(values: list[float], of: list[float]) -> None:
    ours = percentiles(np.array(values), of)
    assert ours == pytest.approx(np.percentile(values, of), rel=1e-9, abs=1e-6)


def test_percentiles_run_over_the_draws() -> None:
    values = np.random.default_rng(2).random((4, 3, 50))
    assert percentiles(values).shape == (5, 4, 3)
    assert np.allclose(percentiles(values), np.percentile(values, [10, 25, 50, 75, 90], axis=-1))


@pytest.mark.parametrize(("sd", "own"), [(0.5, 0.0), (2.0, 0.7)])
def test_a_reading_narrows_as_for_normal_numbers(sd: float, own: float) -> None:
    """In closed form: y = x + own, read = 2x + sd: var(y | read) = own^2 + 1 - 4 / (4 + sd^2)."""
    x = np.random.default_rng(3).standard_normal(200_000)
    left = own**2 + 1 - 4 / (4 + sd**2)
    assert narrowing(x, 2 * x, sd, own) == pytest.approx(1 - np.sqrt(left / (1 + own**2)), abs=0.01)


def test_what_has_nothing_to_do_with_it_tells_nothing() -> None:
    rng = np.random.default_rng(4)
    assert narrowing(rng.standard_normal(50_000), rng.standard_normal(50_000), 0.1) < 0.001
    assert narrowing(np.ones(50), rng.standard_normal(50), 0.1) == 0


def test_a_harvest_weighed_tells_more_than_a_look_in_the_sump() -> None:
    drive = stack(Habits(), 4)
    candidates = [
        Measured(60, "sump_l", 0, 0.5),
        Measured(120, "harvest_kg", 0, 0.02, "D"),
        Measured(90, "moisture", 0, 0.05, "C"),
    ]
    told = most_telling(drive, draw_rates(300), candidates)
    assert told[0].what.kind == "harvest_kg"
    assert told[0].narrows > told[1].narrows > told[2].narrows >= 0
    assert {one.what.kind for one in told} == {"harvest_kg", "moisture", "sump_l"}


def test_a_better_scale_tells_more() -> None:
    drive, rates = stack(Habits(), 4), draw_rates(300)
    good, bad = (
        most_telling(drive, rates, [Measured(120, "harvest_kg", 0, sd, "D")])[0] for sd in (0.02, 0.3)
    )
    assert good.narrows > bad.narrows > 0


def test_there_has_to_be_a_harvest_to_tell_of() -> None:
    drive = stack(Habits(), 3)
    with pytest.raises(OutOfRange, match="no harvest"):
        most_telling(drive, draw_rates(20), [Measured(180, "worms_kg", 0, 0.1)])
    with pytest.raises(OutOfRange, match="no harvest"):
        most_telling(drive, draw_rates(20), [Measured(100, "worms_kg", 0, 0.1)], tray="nobody's")


def test_the_scale_shows_each_harvest_a_little_off() -> None:
    kg = np.full(20_000, 4.0)
    shown = np.log(as_weighed(kg, seed=9) / 4)
    assert shown.std() == pytest.approx(OWN_SPREAD, rel=0.03)
    assert np.array_equal(as_weighed(kg[:50], seed=9), as_weighed(kg, seed=9)[:50])


def test_the_rule_of_thumb() -> None:
    """Half of 2.7 kg of solids at 70 % moisture is 4.5 kg."""
    assert thumb_kg(2.7) == pytest.approx(4.5)
    with pytest.raises(OutOfRange):
        thumb_kg(-1)
