"""Names for a few letters: recent first, then the keeper's own, then the table; and slips."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.composing.meals import NAMES, a_tray
from tests.builders import entry, fed, undone
from trayturn.advice.composing.draft import Part
from trayturn.advice.composing.larder import Larder, Suggestion
from trayturn.advice.composing.recent import history_of
from trayturn.advice.pantry import pantry_of
from trayturn.domain.profile import Profile
from trayturn.domain.setup import Ingredient

PROFILE = a_tray(
    fed("A", 2, {"banana skin": 0.2, "cabbage": 0.4}, bedding_kg={"shredded newspaper": 0.1}),
    fed("A", 14, {"cabbage": 0.3, "apple cores": 0.1}),
    own=(Ingredient(name="apple pulp", moisture_pct=85), Ingredient(name="Cabbage", moisture_pct=91)),
)


def larder(profile: Profile = PROFILE) -> Larder:
    return Larder(pantry_of(profile), history_of(profile))


LARDER = larder()


def names(text: str) -> list[str]:
    return [one.name for one in LARDER.suggest(text)]


def first(text: str) -> Suggestion:
    return LARDER.suggest(text)[0]


def test_recent_names_come_first_then_the_keepers_own_then_the_table() -> None:
    found = LARDER.suggest("ap")
    assert [(one.name, one.origin) for one in found] == [
        ("apple cores", "recent"),
        ("apple pulp", "own"),
        ("apple pomace", "table"),
        ("ap", "new"),
    ]
    assert found[0].last_kg == 0.1


def test_without_letters_the_latest_are_offered() -> None:
    assert names("")[:4] == ["cabbage", "apple cores", "banana skin", "shredded newspaper"]
    assert first("cab").last_kg == 0.3


def test_a_name_and_its_other_names_are_one() -> None:
    assert names("banana p")[0] == "banana skin"
    assert names("cardboard")[0] == "cardboard"
    assert "banana peel" not in names("peel")
    found = next(one for one in LARDER.suggest("peel") if one.name == "banana skin")
    assert found.via == "banana peel"


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("let", "lettuce"),
        ("gro cof", "coffee grounds"),
        ("COFFE", "coffee grounds"),
        ("maize m", "cornmeal"),
        ("onoin", "onion"),
        ("caulifower", "cauliflower"),
    ],
)
def test_letters_words_in_any_order_and_slips_are_found(text: str, name: str) -> None:
    assert first(text).name == name


def test_the_very_name_wins_over_all_that_begins_so() -> None:
    assert first("banana").name == "banana"
    assert names("cabbage") == ["cabbage"]


def test_another_name_typed_in_full_is_kept_as_it_was_typed() -> None:
    assert names("apple peel")[:1] == ["apple peel"]
    assert names("banana peel")[:2] == ["banana peel", "banana skin"]
    assert first("banana peel").last_kg is None


def test_each_has_its_place_in_the_meal_and_what_is_said_of_it() -> None:
    places = {"grit": Part.GRIT, "water": Part.WATER, "oats": Part.AMENDMENTS, "coir": Part.BEDDING}
    assert {name: first(name).part for name in places} == places
    assert (first("onion").guidance, first("cheese").guidance) == ("limit", "avoid")
    assert first("orange peel").reason


def test_what_is_no_known_name_can_be_taken_as_typed() -> None:
    (new,) = LARDER.suggest("  zz  yzx ")
    assert (new.name, new.origin, new.part) == ("zz yzx", "new", Part.SCRAPS)
    assert len(LARDER.suggest("x" * 300)[0].name) == 200


def test_what_was_undone_was_never_fed() -> None:
    meal = fed("A", 3, {"zzyzx": 1.0})
    assert history_of(a_tray(meal, undone(meal, 4))).recent == ()
    assert history_of(a_tray(entry("note", 1, text="x"))).last is None
    assert larder(a_tray()).suggest("")[0].name == "grit"


@given(st.sampled_from(NAMES), st.integers(1, 30))
def test_every_name_of_the_table_is_found_by_its_beginning(name: str, letters: int) -> None:
    plain = larder(a_tray())
    found = plain.suggest(name[:letters].strip(), most=1000)
    assert name in [one.name for one in found]
    assert plain.suggest(name)[0].name == name


@given(st.text(max_size=12))
def test_any_letters_are_answered(text: str) -> None:
    assert len(LARDER.suggest(text)) <= 8
