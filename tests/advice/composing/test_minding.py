"""What is worth minding about a meal: each with a reason, a source and a page of the handbook."""

from __future__ import annotations

from typing import Any

import pytest

from tests.advice.composing.meals import DAY, WORMS, ground, meal
from tests.builders import entry, fed, moment, started, turned
from trayturn.advice.composing.draft import Draft
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.minding import Mind, Press, minding
from trayturn.advice.composing.report import report
from trayturn.advice.pages import Page

ROOMY = entry("worms_added", 0, worms_kg=50)


def minds(on: Ground, draft: Draft) -> dict[str, Mind]:
    return {one.code: one for one in minding(draft, on, report(draft, on))}


def of(
    *entries: Any, items: dict[str, float] | None = None, cover: float = 0.1, **how: Any
) -> dict[str, Mind]:
    """What is minded about a meal of bread-dry cabbage and cover, unless other items are named."""
    on = ground(ROOMY, *entries, **how)
    return minds(on, meal(on, items or {"cabbage": 0.2}, cover=cover))


@pytest.mark.parametrize(
    ("entries", "items", "code", "press", "page", "told"),
    [
        ((entry("checked", DAY, temperature_c=33),), None, "rest:hot", Press.ACT, Page.TEMPERATURE, "cooler"),
        ((entry("checked", DAY, temperature_c=1),), None, "rest:cold", Press.ACT, Page.TEMPERATURE, "warmer"),
        ((entry("checked", DAY, temperature_c=28),), None, "warm", Press.MIND, Page.TEMPERATURE, "thin"),
        ((entry("checked", DAY, smell="rotten"),), None, "rest:smell", Press.ACT, Page.SMELLS, "nothing"),
        (
            (entry("checked", DAY, tray="A", moisture_pct=95),),
            None,
            "rest:wet",
            Press.ACT,
            Page.MOISTURE,
            "nothing",
        ),
        (
            (entry("follow_up_set", DAY - 1, code="overfed", what="Look again.", due=moment(DAY + 5)),),
            None,
            "rest:follow_up",
            Press.ACT,
            Page.TROUBLES,
            "nothing",
        ),
        ((fed("A", DAY - 2),), None, "soon", Press.MIND, Page.FEEDING, "Fed on"),
        ((), {"onion": 0.1}, "limit:onion", Press.MIND, Page.FEEDING, "Little of onion"),
        ((), {"meat": 0.1}, "avoid:meat", Press.ACT, Page.FEEDING, "Leave out meat"),
        ((), {"crackers": 0.1}, "avoid:crackers", Press.ACT, Page.SALT, "Leave out crackers"),
        ((), {"pickles": 5.0}, "salt", Press.ACT, Page.SALT, "too salty"),
        ((), {"cabbage": 6.5}, "heating", Press.MIND, Page.LAYERS, "may heat"),
        ((), {"lettuce": 30.0}, "wet", Press.ACT, Page.MOISTURE, "too wet"),
        ((), {"mushroom": 1.0}, "ammonia", Press.MIND, Page.MEALS, "too rich in nitrogen"),
        ((), {"zzyzx": 0.1}, "stand-in", Press.KNOW, Page.HOW_SURE, "reckoned as kitchen scraps"),
        ((turned("A", 20, A="finishing"),), None, "finishing", Press.ACT, Page.TURNING, "is finishing"),
        (
            (entry("separation_begun", 20, tray="A"),),
            None,
            "separating",
            Press.ACT,
            Page.SEPARATING,
            "being separated",
        ),
    ],
)
def test_each_has_its_reason(
    entries: tuple[Any, ...], items: dict[str, float] | None, code: str, press: Press, page: Page, told: str
) -> None:
    one = of(*entries, items=items)[code]
    assert (one.press, one.page) == (press, page)
    assert told in one.what
    assert one.why.endswith((".", "%)."))
    assert one.source


def test_a_usual_meal_has_nothing_to_mind() -> None:
    assert of(items={"cabbage": 0.2, "apple": 0.3}) == {}


def test_too_much_for_the_worms_is_minded_and_then_pressing() -> None:
    on = ground(WORMS)
    assert "load" not in minds(on, meal(on, {"cabbage": 2.0}))
    assert minds(on, meal(on, {"cabbage": 2.6}))["load"].press is Press.MIND
    much = minds(on, meal(on, {"cabbage": 4.2}))["load"]
    assert (much.press, much.what) == (Press.ACT, "Twice what they take.")
    assert "They take 1.2 kg to 3 kg until the next feeding" in much.why


def test_the_first_meal_of_a_bedding_tray_and_a_turn_that_is_due_are_told() -> None:
    assert of(started("A", 0))["first"].what == "First meal of tray A."
    due = of(started("A", 0, stage="feeding"), day=70)
    assert due["turn"].press is Press.KNOW


def test_a_separation_of_another_tray_is_to_be_waited_for() -> None:
    two = (started("A", 0, stage="feeding"), started("B", 0), entry("separation_begun", 20, tray="B"))
    assert of(*two)["rest:separation"].press is Press.ACT


def test_scraps_without_a_cover_are_told_until_half_of_it_is_there() -> None:
    assert of(cover=0)["cover"].what == "No cover."
    assert of(cover=0.03)["cover"].what == "A thin cover."
    assert "cover" not in of(cover=0.045)
    assert of(cover=0)["cover"].source == "Solomon 1993; City of Oxnard worm guide"


def test_the_most_pressing_stands_first() -> None:
    on = ground(WORMS, entry("checked", DAY, temperature_c=33))
    found = minding(draft := meal(on, {"zzyzx": 9, "onion": 1}), on, report(draft, on))
    assert [one.press for one in found] == sorted(one.press for one in found)
    assert found[0].press is Press.ACT


def test_an_empty_draft_is_not_warned_of() -> None:
    on = ground(WORMS, fed("A", DAY - 1), entry("checked", DAY, temperature_c=33))
    assert minds(on, Draft("A")) == {}
