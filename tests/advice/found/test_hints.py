"""What is said before something goes in, because of what came in with it before."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.composing.meals import DAY, ground, meal
from tests.builders import entry, moment, stack_of, started
from trayturn.advice.composing.minding import Press, minding
from trayturn.advice.composing.report import report
from trayturn.advice.found.hints import same_thing, source_hints
from trayturn.advice.pages import Page
from trayturn.advice.stock import outlooks, story


def found(what: str, source: str, count: int = 1, day: float = 5) -> Any:
    return entry("contaminant_found", day, what=what, source=source, count=count)


@pytest.mark.parametrize(
    ("name", "source", "same"),
    [
        ("banana peel", "bananas", True),
        ("banana", "Banana peel", True),
        ("shredded cardboard", "cardboard from parcels", True),
        ("potato peel", "banana peel", False),
        ("pineapple", "apple", False),
        ("shredded newspaper", "shredded cardboard", False),
        ("tea bags", "tea bags", True),
        ("lettuce", "", False),
        ("", "banana", False),
        ("the old", "from our", False),
    ],
)
def test_a_name_is_meant_by_a_source_when_their_telling_words_agree(
    name: str, source: str, same: bool
) -> None:
    assert same_thing(name, source) is same


@given(st.text(max_size=30), st.text(max_size=30))
def test_it_does_not_matter_which_is_the_source(one: str, other: str) -> None:
    assert same_thing(one, other) == same_thing(other, one)
    assert not same_thing(one, "")


def test_a_hint_says_what_came_in_and_what_to_do() -> None:
    stack = stack_of(found("sticker", "banana", 3), found("tape", "parcels", 2), as_of=20)
    (hint,) = source_hints(stack, ["lettuce", "banana peel"])
    assert hint.what == "3 stickers came in with banana: peel them off before feeding."
    assert hint.name == "banana peel"
    assert "Say that the source is stopped" in hint.why
    assert source_hints(stack, ["lettuce"]) == []
    assert [one.source.name for one in source_hints(stack, ["card of parcels", "bananas"])] == [
        "banana",
        "parcels",
    ]


def test_nothing_is_said_of_what_is_stopped_or_long_ago() -> None:
    sticker, stop = found("sticker", "banana", 3), entry("source_stopped", 6, source="banana")
    assert source_hints(stack_of(sticker, stop, as_of=20), ["banana"]) == []
    assert source_hints(stack_of(sticker, as_of=400), ["banana"]) == []
    again = found("sticker", "banana", day=8)
    assert len(source_hints(stack_of(sticker, stop, again, as_of=20), ["banana"])) == 1


def test_several_kinds_of_one_source_are_one_hint() -> None:
    stack = stack_of(found("tape", "parcels", 2), found("staple", "parcels", 5), as_of=20)
    (hint,) = source_hints(stack, ["parcels"])
    assert hint.what.startswith("5 staples and 2 pieces of tape came in with parcels: pull them out")
    assert "strip tape and labels off" in hint.what


def test_the_composer_minds_it_and_stops_minding_once_it_is_stopped() -> None:
    def codes(*entries: Any, **items: float) -> dict[str, Any]:
        on = ground(*entries)
        draft = meal(on, items, cover=0.1)
        return {one.code: one for one in minding(draft, on, report(draft, on))}

    sticker = found("sticker", "banana", 3)
    minded = codes(sticker, **{"banana peel": 0.3})["source:banana"]
    assert (minded.press, minded.page, minded.source) == (Press.MIND, Page.FOUND, "your own finds")
    assert "peel them off" in minded.what
    stop = entry("source_stopped", DAY - 1, source="banana")
    assert "source:banana" not in codes(sticker, stop, **{"banana peel": 0.3})
    assert "source:banana" not in codes(sticker, lettuce=0.3)
    card = found("tape", "cardboard from parcels", 2)
    assert "source:cardboard from parcels" in codes(card, lettuce=0.3)


def test_the_supplies_say_it_of_the_bedding() -> None:
    stack = stack_of(
        started("A"),
        entry("supplies_counted", 2, supplies_kg={"shredded cardboard": 2.0, "grit": 0.5}),
        found("tape", "parcel cardboard", 4),
        as_of=moment(20),
    )
    told = {one.name: " ".join(story(one, stack)) for one in outlooks(stack)}
    assert "4 pieces of tape came in with parcel cardboard" in told["shredded cardboard"]
    assert "tape" not in told["grit"]
