"""What becomes of what is put into a tray, against published losses and SciPy's own integration."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from trayturn.science.blend import Blend, Part, Stuff
from trayturn.science.breakdown import RATES, rate
from trayturn.science.contents import PutIn, left_band, leftover
from trayturn.science.water import METABOLIC

SCRAPS = Stuff("scraps", 0.80, n=0.02, c=0.45, salt=0.001)
SHREDS = Stuff("shreds", 0.08, n=0.001, c=0.50)
WHOLE = 10_000.0
"""Days after which the fast part of anything is gone."""


def put(kg: float, days: float, stuff: Stuff = SCRAPS, breakdown: str = "medium") -> PutIn:
    return PutIn(Part(stuff, kg), breakdown, days)


def test_what_was_just_put_in_is_all_there() -> None:
    found = leftover([put(2.0, 0)], 20)
    assert found.uneaten == (2.0, 2.0, 2.0)
    assert found.solids == pytest.approx(0.4)
    assert found.water_in == pytest.approx(1.6)
    assert found.carbon == pytest.approx(0.4 * 0.45)
    assert found.nitrogen == pytest.approx(0.4 * 0.02)


def test_worked_whole_it_keeps_half_its_solids_and_makes_water_of_the_other_half() -> None:
    found = leftover([put(2.0, WHOLE)], 20)
    assert found.uneaten == pytest.approx((0, 0, 0), abs=1e-9)
    assert found.solids == pytest.approx(0.2)
    assert found.water_in == pytest.approx(1.6 + 0.2 * METABOLIC)


def test_a_mix_worked_whole_ends_near_the_published_ratios() -> None:
    # Atiyeh et al. 2000, Pedobiologia 44:709-724 (abstract): cow manure C:N 36 to 21 in 17 weeks;
    # Int. J. Recycl. Org. Waste Agric. 2014, s40093-014-0047-1 (abstract): household waste 55.8 to 17.3-20.
    for before, low, high in ((36.0, 15, 21), (55.8, 17.3, 28)):
        mix = Stuff("mix", 0.7, n=0.45 / before, c=0.45)
        found = leftover([put(1.0, WHOLE, mix, "fast")], 20)
        assert found.carbon is not None
        assert found.nitrogen is not None
        assert low <= found.carbon / found.nitrogen <= high


@pytest.mark.parametrize("breakdown", RATES)
def test_the_share_left_agrees_with_scipy(breakdown: str) -> None:
    slow, quick = rate(breakdown, 17.0)
    low, middle, high = left_band(breakdown, 21, 17.0)
    for share, k in ((low, quick), (high, slow), (middle, (slow * quick) ** 0.5)):
        solved = solve_ivp(lambda _, y, k=k: -k * y, (0, 21), [1.0], rtol=1e-10, atol=1e-12)
        assert share == pytest.approx(solved.y[0][-1], rel=1e-6)


amounts = st.lists(
    st.tuples(st.floats(0.001, 20), st.floats(0, 400), st.sampled_from(sorted(RATES)), st.booleans()),
    min_size=1,
    max_size=8,
)


@given(amounts, st.floats(1, 34))
def test_solids_are_conserved_and_the_band_is_in_order(
    rows: list[tuple[float, float, str, bool]], c: float
) -> None:
    all_in = [put(kg, days, SHREDS if dry else SCRAPS, speed) for kg, days, speed, dry in rows]
    found = leftover(all_in, c)
    blend = Blend(tuple(one.part for one in all_in))
    gas = (found.water_in - (blend.wet_kg - blend.dry_kg)) / METABOLIC
    assert found.solids + gas == pytest.approx(blend.dry_kg, rel=1e-9)
    assert 0.5 * blend.dry_kg - 1e-9 <= found.solids <= blend.dry_kg + 1e-9
    low, middle, high = found.uneaten
    assert 0 <= low <= middle <= high <= blend.wet_kg + 1e-9
    assert found.nitrogen == pytest.approx(blend.n_kg, rel=1e-9)


def test_frozen_nothing_is_eaten() -> None:
    assert leftover([put(1.0, 50)], -2).uneaten == (1.0, 1.0, 1.0)


def test_what_is_not_known_stays_unknown() -> None:
    found = leftover([put(1.0, 5), put(0.1, 5, Stuff("mystery", 0.8))], 20)
    assert (found.carbon, found.nitrogen) == (None, None)
