"""Worms moved between two bins: what each journal gets, what is refused, and how it is taken back."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.stacks import Case, cases
from tests.builders import a_profile, a_usual_bin, codes, entry, fed, moment, noted, order, stages, started
from trayturn.domain.entries import Entry, TrayStarted, Turned, WormsAdded, WormsRemoved
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay, standing
from trayturn.domain.setup import Pattern
from trayturn.domain.stack import Stack
from trayturn.procedure.splitting import CannotSplit, Split, may_go_along, split_between, split_off
from trayturn.procedure.undoing import are_halves, half_of_a_move, holds_half, take_back, take_back_both

NOW = moment(100)
WORMS = entry("worms_added", 1, worms_kg=0.5)
PANTRY = a_profile(*a_usual_bin(), WORMS)
SHED = a_profile(started("A", 50, stage="feeding"), started("B", 50), key="shed", name="Shed", trays="ABC")


def split(**changes: Any) -> Split:
    return Split(**{"at": NOW, "worms_kg": 0.2, **changes})


def after(one: Profile, other: Profile, what: Split) -> tuple[Profile, Profile]:
    """Both bins with what was written in them."""
    out, into = split_between(one, other, what, NOW)
    return one.with_entries(out), other.with_entries(into)


def stack(profile: Profile) -> Stack:
    return replay(profile, NOW)


def test_worms_leave_one_bin_and_come_into_the_other_at_one_moment() -> None:
    out, into = split_between(PANTRY, SHED, split(tray="B", counted=400, note="by hand"), NOW)
    assert out == [WormsRemoved(at=NOW, worms_kg=0.2, tray="B", went_to="Shed", counted=400, note="by hand")]
    assert into == [WormsAdded(at=NOW, worms_kg=0.2, tray="A", source="Pantry", counted=400, note="by hand")]
    one, other = after(PANTRY, SHED, split())
    assert stack(one).worms_kg == pytest.approx(0.3)
    assert stack(other).worms_kg == 0.2


def test_a_fed_tray_goes_along_on_top_with_what_is_in_it() -> None:
    out, into = split_between(PANTRY, SHED, split(along="B"), NOW)
    assert [type(one) for one in (*out, *into)] == [Turned, WormsRemoved, TrayStarted, WormsAdded]
    one, other = after(PANTRY, SHED, split(along="B"))
    assert (order(stack(one)), stages(stack(one))["B"]) == ("CA", "spare")
    assert order(stack(other)) == "BAC"
    came = stack(other).tray("C")
    assert came is not None
    assert (came.stage, came.bedding_kg) == ("feeding", {"shredded cardboard": 0.5})
    assert into[0].note == "Tray B of Pantry, as it stood after 1 feeding, 500 g of scraps."
    assert out[0].note == "Tray B went to Shed with all that is in it."
    assert codes(stack(one)) == codes(stack(other)) == []


def test_the_trays_that_stay_keep_their_stages_and_ages() -> None:
    one, _ = after(PANTRY, SHED, split(along="B"))
    kept = {tray.id: (tray.stage, tray.stage_since) for tray in stack(one).trays}
    assert kept == {tray.id: (tray.stage, tray.stage_since) for tray in stack(PANTRY).trays if tray.id != "B"}


def test_bedding_goes_where_the_other_pattern_has_fresh_trays() -> None:
    _, other = after(PANTRY, SHED, split(along="C"))
    assert order(stack(other)) == "CBA"
    straight = replace(SHED, bin=SHED.bin.model_copy(update={"pattern": Pattern.STRAIGHT_UP}))
    assert order(stack(straight)) == "AB"
    _, other = after(PANTRY, straight, split(along="C"))
    assert order(stack(other)) == "ABC"


def test_a_name_that_is_free_there_is_kept() -> None:
    empty = a_profile(key="shed", name="Shed", trays="ABC")
    _, other = after(PANTRY, empty, split(along="B"))
    assert order(stack(other)) == "B"


def test_the_stock_of_the_other_bin_is_not_drawn_on() -> None:
    stocked = SHED.with_entries([entry("supplies_added", 60, supplies_kg={"shredded cardboard": 2})])
    _, other = after(PANTRY, stocked, split(along="B"))
    assert stack(other).supplies_kg == {"shredded cardboard": 2}


def test_a_new_bin_is_made_like_the_first() -> None:
    out, setup, trays, into = split_off(PANTRY, "Attic", split(along="B"), NOW)
    assert (setup.name, setup.place, setup.began) == ("Attic", "", None)
    assert setup.model_copy(update={"name": "Pantry"}) == PANTRY.bin
    made = Profile("attic", setup, trays, tuple(into))
    assert (order(stack(made)), stack(made).worms_kg, codes(stack(made))) == ("B", 0.2, [])
    assert out[-1].kind == "worms_removed"
    _, _, trays, into = split_off(a_profile(*a_usual_bin(), trays=""), "Attic", split(), NOW)
    assert [tray.id for tray in trays] == ["A", "B", "C", "D"]
    assert [one.kind for one in into] == ["worms_added"]


RUNNING = entry("separation_begun", 70, tray="A")
FULL = SHED.with_entries([started("C", 60), started("D", 60)])
REFUSED: dict[str, tuple[Profile, Profile, dict[str, Any], str, str]] = {
    "not there": (PANTRY, SHED, {"along": "E"}, "along", "Tray E is not on the stack"),
    "finishing": (PANTRY, SHED, {"along": "A"}, "along", "Tray A is finishing: separate it instead"),
    "the only one": (a_profile(started("A")), SHED, {"along": "A"}, "along", "Tray A is the only one"),
    "no place": (PANTRY, FULL, {"along": "B"}, "along", "Shed has no place for another tray"),
    "a separation there": (
        PANTRY,
        SHED.with_entries([entry("separation_begun", 70, tray="A")]),
        {"along": "B"},
        "along",
        "Shed has a tray being separated",
    ),
    "before that bin began": (
        PANTRY,
        a_profile(key="shed", name="Shed", began=moment(99)),
        {"at": moment(98)},
        "when",
        "In Shed: The bin began on 2026-06-08, after this.",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_is_refused_with_what_is_at_fault(case: str) -> None:
    one, other, changes, about, words = REFUSED[case]
    with pytest.raises(CannotSplit) as caught:
        split_between(one, other, split(**changes), NOW)
    assert caught.value.about == about
    assert words in str(caught.value)


def test_trays_that_may_go_along_are_offered_from_the_top() -> None:
    assert may_go_along(stack(PANTRY)) == ["B", "C"]
    assert may_go_along(stack(a_profile(started("A")))) == []
    assert may_go_along(stack(a_profile())) == []


@given(cases(), cases(), st.floats(0.001, 5))
def test_any_tray_offered_goes_or_is_refused_and_nothing_goes_wrong(
    one: Case, other: Case, kg: float
) -> None:
    shed = replace(other.profile, key="shed", bin=other.profile.bin.model_copy(update={"name": "Shed"}))
    now = moment(200)
    for along in (None, *may_go_along(replay(one.profile, now))):
        what = Split(at=now, worms_kg=kg, along=along)
        try:
            out, into = split_between(one.profile, shed, what, now)
        except CannotSplit:
            continue
        left, right = one.profile.with_entries(out), shed.with_entries(into)
        assert are_halves(left, right)
        assert are_halves(right, left)
        if along is not None:
            assert len(replay(left, now).trays) == len(replay(one.profile, now).trays) - 1
            assert len(replay(right, now).trays) == len(replay(shed, now).trays) + 1
        for first, second, before in ((left, right, one.profile), (right, left, shed)):
            gone, also = take_back_both(first, second, now)
            assert [e for _, e in standing([*first.journal, *gone])] == _standing(before)
            assert len(also) == len(gone) or along is None


def _standing(profile: Profile) -> list[Entry]:
    return [one for _, one in standing(profile.journal)]


@pytest.mark.parametrize("along", [None, "B"])
def test_undo_in_either_bin_takes_both_halves_back(along: str | None) -> None:
    one, other = after(PANTRY, SHED, split(along=along))
    for first, second in ((one, other), (other, one)):
        gone, also = take_back_both(first, second, NOW)
        assert _standing(first.with_entries(gone)) == _standing(PANTRY if first is one else SHED)
        assert _standing(second.with_entries(also)) == _standing(SHED if first is one else PANTRY)


def test_where_the_other_bin_went_on_only_this_half_is_taken_back() -> None:
    one, other = after(PANTRY, SHED, split())
    gone, also = take_back_both(one, other.with_entries([fed("A", 100)]), NOW)
    assert (len(gone), also) == (1, [])
    gone, also = take_back_both(one.with_entries([noted("later", 100)]), other, NOW)
    assert ([entry.entry_kind for entry in gone], also) == (["note"], [])


def test_worms_from_a_friend_are_no_half_of_anything() -> None:
    friend = SHED.with_entries([entry("worms_added", 100, worms_kg=0.2, source="Pantry")])
    assert half_of_a_move(friend.journal) is not None
    assert not are_halves(friend, PANTRY)
    assert half_of_a_move(PANTRY.journal) is None
    plain = PANTRY.with_entries([entry("worms_removed", 100, worms_kg=0.2)])
    assert half_of_a_move(plain.journal) is None
    other_kg = PANTRY.with_entries([entry("worms_removed", 100, worms_kg=0.3, went_to="Shed")])
    assert not are_halves(other_kg, friend)


def test_a_turn_of_the_same_moment_stays_when_plain_worms_are_taken_back() -> None:
    turn = Turned(at=NOW, order=("C", "A", "B"))
    worms = entry("worms_removed", 100, worms_kg=0.2, went_to="a friend")
    kinds = [gone.entry_kind for gone in take_back((*a_usual_bin(), turn, worms), NOW)]
    assert kinds == ["worms_removed"]


@pytest.mark.parametrize("renamed", [0, 1])
def test_undo_finds_the_other_half_after_one_of_the_bins_was_renamed(renamed: int) -> None:
    both = list(after(PANTRY, SHED, split()))
    before = [PANTRY, SHED]
    for bins in (both, before):
        bins[renamed] = replace(bins[renamed], bin=bins[renamed].bin.model_copy(update={"name": "Loft"}))
    for first, second in (both, both[::-1]):
        half = half_of_a_move(first.journal)
        assert half is not None
        assert holds_half(second, half, first.bin.name)
        gone, also = take_back_both(first, second, NOW)
        told = {one.key: _standing(one.with_entries(back)) for one, back in ((first, gone), (second, also))}
        assert told == {one.key: _standing(one) for one in before}
