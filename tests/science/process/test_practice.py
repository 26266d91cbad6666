"""What keepers know of a stack, and what the model makes of it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.science.process.keepers import Habits, stack
from trayturn.science.process.events import Build, Drive, Put, TrayOn, WormsPut
from trayturn.science.process.rates import Array, draw_rates, medians
from trayturn.science.process.running import run
from trayturn.science.process.telling import percentiles

USUAL = Habits()
"""Four trays, turned every 60 days, 0.5 kg of dry shreds to start and 1.5 kg of scraps with 0.1 kg of dry
bedding every 13 days."""


def sump(habits: Habits, days: int) -> Array:
    """What stands in the sump after so many days of never emptying it, draw by draw."""
    drive = stack(replace(habits, empties_sump=False), days // habits.turn_every)
    stands: Array = run(drive, draw_rates(400), ("sump_l",)).series["sump_l"][days]
    return stands


def test_a_harvest_every_sixty_days_is_about_ten_pounds() -> None:
    """Common practice, no source: about 4.5 kg of castings every 60 days."""
    harvests = run(stack(USUAL, 10), draw_rates(400), ()).harvests
    low, *_, high = percentiles(harvests[-1].kg)
    assert low < 4.5 < high
    assert high / low < 2.2
    before = percentiles(harvests[-2].kg)
    assert percentiles(harvests[-1].kg) == pytest.approx(before, rel=0.02)


def test_it_keeps_the_worms_of_common_practice() -> None:
    """Common practice, no source: 5,000 to 6,000 worms, 1.5 to 3 kg at 0.25 to 0.5 g each."""
    worms = run(stack(USUAL, 10), draw_rates(400), ("worms_kg",)).series["worms_kg"][-1]
    low, *_, high = percentiles(worms)
    assert low < 1.5 < 2.5 < high


def test_fresh_castings_are_as_moist_as_worms_like_it() -> None:
    """60 to 90 % (Edwards 1988)."""
    low, *_, high = percentiles(run(stack(USUAL, 6), draw_rates(400), ()).harvests[-1].moisture)
    assert 0.60 < low < high < 0.90


def test_bedding_below_keeps_the_sump_nearly_dry_for_a_turn() -> None:
    """Common practice, no source."""
    assert np.median(sump(USUAL, 60)) < 0.3


def test_twice_the_bedding_keeps_the_sump_dry_for_a_year() -> None:
    assert np.percentile(sump(replace(USUAL, with_it_kg=0.2, bedding_kg=1.0), 360), 75) == 0


def test_more_scraps_without_bedding_fill_the_sump() -> None:
    assert np.median(sump(replace(USUAL, scraps_kg=2, with_it_kg=0, bedding_kg=0.01), 240)) == 5


def test_a_banana_peel_goes_in_about_three_weeks_and_a_cob_outlasts_turns() -> None:
    """Common practice, no source. A tenth or so is left of the peel; of cobs most after four months."""
    put = (Put(0, "A", 0.01, 0.4, 0.1, 1.8), WormsPut(0, 1), TrayOn(0, "A"))
    series = run(Drive(Build(), 120, put), medians(), ("quick_kg", "resistant_kg")).series
    assert 0.05 < series["quick_kg"][21, 0, 0] / 0.01 < 0.25
    assert series["resistant_kg"][120, 0, 0] / 0.1 > 0.6


def test_half_of_the_solids_become_castings() -> None:
    """50 +- 10 % of the solids are lost (Pondicherry University)."""
    put = (Put(0, "A", 0.5, water_kg=2.5), WormsPut(0, 1), TrayOn(0, "A"))
    made = run(Drive(Build(), 300, put), draw_rates(400), ("castings_kg",)).series["castings_kg"][-1, 0] / 0.5
    low, *_, high = percentiles(made)
    assert low < 0.4 < 0.6 < high
