"""What is proposed: it reaches its goals, or says that it cannot; and never hides that stock is short."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings

from tests.advice.composing.meals import DAY, WORMS, ground, grounds, items, meal
from tests.advice.composing.test_report import EMPTY, GRASS
from tests.builders import entry, fed, started
from trayturn.advice.composing.draft import EATEN, SHREDS, Draft, Part
from trayturn.advice.composing.goals_missed import NEAR
from trayturn.advice.composing.ground import Goals, Ground
from trayturn.advice.composing.minding import minding
from trayturn.advice.composing.proposing import beddings, propose, split_cover
from trayturn.advice.composing.report import cover_depth_m, report
from trayturn.domain.entries import Entry


def stocked(**supplies: float) -> Entry:
    made: Entry = entry(
        "supplies_added", 0, supplies_kg={k.replace("_", " "): v for k, v in supplies.items()}
    )
    return made


def read_at(percent: float) -> Entry:
    """The tray's moisture, read today."""
    made: Entry = entry("checked", DAY, tray="A", moisture_pct=percent)
    return made


def test_the_leaves_for_the_grass_are_those_of_the_published_example() -> None:
    """Cornell (Richard & Trautmann 1996): 10 kg of grass at 77 % reach 60 % with 6.8 kg of leaves at 35 %."""
    stock = entry("supplies_added", 0, supplies_kg={"dry leaves": 20})
    wide = {"tray_area_m2": 1.0, "tray_depth_m": 0.5}
    on = ground(EMPTY, stock, own=(GRASS,), goals=Goals(moisture=0.6, c_to_n=1), **wide)
    found = propose(meal(on, {"lawn": 10}), on)
    assert found.draft.kg(*SHREDS) == pytest.approx(6.8, abs=0.005)
    assert found.why == "6.8 kg of dry leaves: dries the tray to 60 %."
    assert found.missed == ()


def test_scraps_are_covered_by_an_inch_of_loose_bedding() -> None:
    """Solomon 1993 and the City of Oxnard guide: about 2.5 cm; loose shreds are 16 to 24 kg/m3 (Solomon)."""
    on = ground(read_at(60), WORMS, stocked(shredded_cardboard=2), tray_area_m2=0.16)
    found = propose(meal(on, {"bread": 0.1}), on)
    assert found.draft.masses(Part.COVER) == {"shredded cardboard": pytest.approx(0.08)}
    assert cover_depth_m(found.draft, on) == pytest.approx(0.025)
    assert found.why.startswith("80 g of shredded cardboard")
    assert "covers the scraps by about 2.5 cm" in found.why
    us = ground(read_at(60), WORMS, stocked(shredded_cardboard=2), tray_area_m2=0.16, units="us")
    assert "covers the scraps by about 1 in" in propose(meal(us, {"bread": 0.1}), us).why


def test_bedding_in_stock_comes_first_the_fullest_first() -> None:
    on = ground(stocked(grit=0.2, shredded_newspaper=0.5, coir=0.8))
    assert beddings(on) == ["coir", "shredded newspaper"]
    assert beddings(ground()) == ["shredded cardboard"]
    assert (
        beddings(ground(fed("A", 3, bedding_kg={"torn felt": 0.1}), stocked(torn_felt=1)))[0] == "torn felt"
    )
    assert beddings(ground(started("A", 0, bedding_kg={}, stage="feeding"))) == ["shredded cardboard"]


def test_the_next_bedding_stands_in_where_one_runs_out() -> None:
    on = ground(WORMS, stocked(shredded_newspaper=0.2, coir=0.21))
    found = propose(meal(on, {"cabbage": 0.8}), on)
    used = found.draft.masses(*SHREDS)
    assert used["coir"] == pytest.approx(0.21)
    assert 0 < used["shredded newspaper"] < 0.2
    assert found.short == ()


def test_more_than_is_in_stock_is_said() -> None:
    on = ground(WORMS, stocked(shredded_cardboard=0.03))
    found = propose(meal(on, {"cabbage": 0.8}), on)
    (short,) = found.short
    assert short.endswith("more shredded cardboard than is in stock")
    codes = [one.code for one in minding(found.draft, on, report(found.draft, on))]
    assert "stock:shredded cardboard" in codes


def test_water_is_poured_sparingly_on_a_dry_tray() -> None:
    on = ground(WORMS, read_at(55))
    found = propose(meal(on, {"cabbage": 0.5}), on)
    after = report(found.draft, on).after
    assert found.draft.kg(Part.WATER) > 0
    assert after.moisture == pytest.approx(on.goals.moisture - NEAR, abs=0.002)
    assert "of water" in found.why
    assert (
        propose(meal(ground(WORMS, read_at(74)), {"cabbage": 0.5}), ground(WORMS, read_at(74))).draft.kg(
            Part.WATER
        )
        == 0
    )


def test_a_goal_out_of_reach_is_said_plainly() -> None:
    on = ground(WORMS, read_at(92), stocked(shredded_cardboard=9))
    found = propose(meal(on, {"lettuce": 3}), on)
    assert "as far as it fits" in found.why
    assert found.missed[0].what.startswith("Moisture comes to about ")
    assert found.missed[0].what.endswith(", not 75 %.")
    assert found.missed[0].why == "More bedding does not fit, or is not dry enough."
    rich = ground(EMPTY, goals=Goals(c_to_n=400))
    missed = propose(meal(rich, {"cabbage": 4}), rich).missed
    assert missed[-1].what.startswith("C:N comes to about ")
    unknown = propose(meal(on, {"cull potatoes": 1}), on).missed[-1]
    assert unknown.what == "C:N cannot be told."
    assert unknown.why == "Cull potatoes has no carbon or nitrogen in the table."


def test_carbon_is_added_until_the_tray_is_at_its_ratio() -> None:
    on = ground(EMPTY, goals=Goals(moisture=0.9, c_to_n=60))
    found = propose(meal(on, {"cabbage": 1}), on)
    ratio = report(found.draft, on).c_to_n_after
    assert ratio is not None
    assert 60 <= ratio.mid < 66
    assert report(found.draft, on).after.moisture >= 0.85 - 0.003
    assert "brings the tray to C:N 60" in found.why


def test_grit_is_a_pinch_where_the_bin_is_given_grit() -> None:
    food = {"cabbage": 0.5}
    for on, kg in (
        (ground(), 0),
        (ground(stocked(grit=0.2)), 0.005),
        (ground(stocked(grit=0.003)), 0.003),
        (ground(fed("A", 3, grit_kg=0.01)), 0.005),
    ):
        assert propose(meal(on, food), on).draft.kg(Part.GRIT) == pytest.approx(kg)
    on = ground(stocked(grit=0.2))
    assert propose(meal(on, {**food, "egg shell": 0.02}), on).draft.kg(Part.GRIT) == 0


def test_nothing_is_proposed_for_nothing() -> None:
    on = ground(WORMS, stocked(grit=1))
    found = propose(Draft("A"), on)
    assert (found.lines, found.why, found.missed) == ((), "Nothing needs to be added.", ())


def test_the_cover_is_split_off_the_bedding_it_is_given() -> None:
    on = ground()
    bare = meal(on, {"cabbage": 0.5})
    split = split_cover(bare, {"shredded cardboard": 0.2}, on)
    assert split.kg(Part.COVER) == pytest.approx(0.08)
    assert split.kg(Part.BEDDING) == pytest.approx(0.12)
    assert split_cover(bare, {"shredded cardboard": 0.05}, on).kg(Part.BEDDING) == 0


def test_that_no_more_fits_is_said_of_the_second_bedding_too() -> None:
    on = ground(read_at(46), stocked(straw=1, shredded_newspaper=1))
    found = propose(meal(on, {"kiwi fruit": 14}), on)
    assert set(found.draft.masses(*SHREDS)) == {"straw", "shredded newspaper"}
    assert found.why.endswith(" as far as it fits.")


@settings(max_examples=200, deadline=None)
@given(grounds(), items())
def test_it_reaches_its_goals_or_says_that_it_cannot(on: Ground, food: dict[str, float]) -> None:
    draft = meal(on, food)
    found = propose(draft, on)
    assert found.draft.of(*EATEN) == draft.of(*EATEN)
    after, told = report(found.draft, on), " ".join(one.what for one in found.missed)
    if after.after.wet_kg > 0 and abs(after.after.moisture - on.goals.moisture) > NEAR + 0.003:
        assert "Moisture comes to" in told
    # Where bedding is laid, it is all that the goal asks for, or all that fits or is in stock.
    if found.draft.kg(*SHREDS) and after.after.moisture > on.goals.moisture + 0.003:
        assert "as far as it fits" in found.why or found.short or told
    if after.total_kg and (after.c_to_n_after is None or after.c_to_n_after.mid < on.goals.c_to_n - 0.2):
        assert "C:N" in told
    for name, kg in found.draft.masses(*SHREDS).items():
        assert kg <= on.stack.supplies_kg.get(name, 1e9) + 1e-6 or found.short


@settings(max_examples=60, deadline=None)
@given(grounds(), items())
def test_to_propose_again_changes_nothing(on: Ground, food: dict[str, float]) -> None:
    once = propose(meal(on, food), on)
    assert propose(once.draft, on).draft.masses() == once.draft.masses()


def test_a_proposal_follows_until_it_is_changed_by_hand() -> None:
    on = ground(WORMS)
    draft = propose(meal(on, {"cabbage": 0.5}), on).draft
    more = draft.set(Part.SCRAPS, "cabbage", 1.5)
    assert more.follows
    assert propose(more, on).draft.kg(*SHREDS) > draft.kg(*SHREDS)
    assert not more.put(replace(more.of(Part.COVER)[0], kg=0.2)).follows
