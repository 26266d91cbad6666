"""A draft: its steps, its order, and what stays in the caddy."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.advice.composing import steps
from trayturn.advice.composing.draft import Draft, Line, Part
from trayturn.domain.setup import Units
from trayturn.domain.units import OUNCE_KG

UNITS = st.sampled_from(Units)
AMOUNTS = st.floats(0, 50)
CABBAGE = "scraps:cabbage"


def a_draft(*lines: Line) -> Draft:
    return Draft("A", lines)


@given(AMOUNTS, UNITS, st.none() | st.floats(0.01, 2))
def test_less_takes_back_what_more_did(kg: float, units: Units, each: float | None) -> None:
    assert steps.less(steps.more(kg, units, each), units, each) == pytest.approx(kg, abs=1e-8)


@given(AMOUNTS, UNITS)
def test_less_comes_to_nothing_in_the_end_and_never_below(kg: float, units: Units) -> None:
    for _ in range(400):
        lower = steps.less(kg, units)
        assert 0 <= lower < kg or lower == kg == 0
        kg = lower
    assert kg == 0


def test_a_step_follows_the_size() -> None:
    at = {0.0: 5, 0.05: 10, 0.1: 25, 0.25: 50, 1.0: 100, 2.5: 250}
    assert {kg: round(1000 * (steps.more(kg, Units.METRIC) - kg)) for kg in at} == at
    assert steps.more(4 * OUNCE_KG, Units.US) == pytest.approx(4.5 * OUNCE_KG)


@given(st.floats(0, 20), UNITS)
def test_rounding_up_is_never_less_and_never_a_step_more(kg: float, units: Units) -> None:
    step = 0.25 * OUNCE_KG if units is Units.US else 0.005
    assert kg - 1e-8 <= steps.rounded_up(kg, units) < kg + step + 1e-8
    assert kg - step - 1e-8 < steps.rounded_down(kg, units) <= kg + 1e-8


def test_it_stands_in_feeding_order() -> None:
    draft = a_draft(
        Line(Part.COVER, "leaves", 0.1),
        Line(Part.GRIT, "grit", 0.01),
        Line(Part.SCRAPS, "cabbage", 0.5),
        Line(Part.BEDDING, "leaves", 0.2),
        Line(Part.SCRAPS, "apple", 0.25),
    )
    assert [one.name for one in draft] == ["leaves", "cabbage", "apple", "grit", "leaves"]
    assert draft.masses(Part.BEDDING, Part.COVER) == {"leaves": pytest.approx(0.3)}
    assert draft.kg() == pytest.approx(1.06)


def test_the_first_step_of_an_offer_is_what_went_in_last_time() -> None:
    draft = a_draft(Line(Part.SCRAPS, "cabbage", last_kg=0.28)).more(CABBAGE, Units.METRIC)
    assert draft.kg(Part.SCRAPS) == 0.28
    assert draft.more(CABBAGE, Units.METRIC).kg() == pytest.approx(0.33)
    assert a_draft(Line(Part.SCRAPS, "cabbage")).more(CABBAGE, Units.METRIC).kg() == 0.005


def test_what_came_from_the_caddy_goes_back_to_it() -> None:
    draft = a_draft(Line(Part.SCRAPS, "cabbage", held_kg=0.8))
    assert draft.waits == {"cabbage": 0.8}
    draft = draft.more(CABBAGE, Units.METRIC)
    assert (draft.kg(), draft.waits) == (0.8, {})
    draft = draft.less(CABBAGE, Units.METRIC)
    assert draft.kg() == pytest.approx(0.75)
    assert draft.waits == {"cabbage": pytest.approx(0.05)}
    draft = draft.out(CABBAGE)
    assert (draft.kg(), draft.waits) == (0, {"cabbage": 0.8})
    assert draft.out(CABBAGE).lines == ()


def test_a_line_taken_out_is_gone_and_another_stays() -> None:
    draft = a_draft(Line(Part.SCRAPS, "cabbage", 0.5), Line(Part.SCRAPS, "apple", 0.2))
    assert [one.name for one in draft.out(CABBAGE)] == ["apple"]
    assert draft.out("scraps:none") == draft.more("scraps:none", Units.METRIC) == draft
    assert draft.less("scraps:none", Units.METRIC) == draft


@given(st.floats(0.001, 5), st.floats(0, 5), st.lists(st.sampled_from("+-x"), max_size=8))
def test_what_is_held_is_fed_or_waits(held: float, kg: float, presses: list[str]) -> None:
    draft = a_draft(Line(Part.SCRAPS, "cabbage", min(kg, held), held_kg=held))
    for press in presses:
        act = {"+": draft.more, "-": draft.less}.get(press)
        draft = act(CABBAGE, Units.METRIC) if act else draft.out(CABBAGE)
        if draft.at(CABBAGE) is None:
            return
        fed, waits = draft.kg(Part.SCRAPS), sum(draft.waits.values())
        assert fed + waits == pytest.approx(max(held, fed), abs=1e-8)


def test_a_caddy_that_changed_meanwhile_is_followed() -> None:
    draft = a_draft(Line(Part.SCRAPS, "cabbage", 0.3, held_kg=0.8), Line(Part.COVER, "leaves", 0.1))
    after = draft.with_caddy({"cabbage": 0.8}, {"cabbage": 0.5, "apple": 0.2})
    assert after.waits == {"cabbage": pytest.approx(0.2), "apple": 0.2}
    assert after.kg() == draft.kg()


def test_a_change_by_hand_ends_following_the_proposal_but_scraps_do_not() -> None:
    draft = Draft("A", (Line(Part.SCRAPS, "cabbage", 0.5), Line(Part.COVER, "leaves", 0.1)), follows=True)
    assert draft.more(CABBAGE, Units.METRIC).follows
    assert not draft.more("cover:leaves", Units.METRIC).follows
    assert not draft.out("cover:leaves").follows
