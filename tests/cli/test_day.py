"""`day`: the plan of a turn day, and where one under way stands."""

from __future__ import annotations

from tests.cli.conftest import Keeper
from trayturn.domain.entries import DayStep, DayStepDone, TurnDayBegun
from trayturn.domain.profile import Profile
from trayturn.storage.reading import load
from trayturn.storage.saving import append


def turning(keeper: Keeper) -> Keeper:
    """A bin of four trays on a day on which its turn is due."""
    keeper.does("new", "Pantry", "--trays", "4")
    keeper.does("log", "pantry", "started", "A", "--stage", "feeding", "--bedding", "leaves=400 g")
    keeper.does("log", "pantry", "fed", "A", "cabbage=800 g")
    keeper.does("log", "pantry", "started", "B", "--bedding", "leaves=400 g")
    keeper.it_is("2026-05-01T09:00:00+02:00")
    keeper.does("log", "pantry", "turned", "A", "B", "--stage", "A=finishing", "--stage", "B=feeding")
    keeper.does("log", "pantry", "started", "C", "--bedding", "leaves=400 g")
    keeper.it_is("2026-07-01T09:00:00+02:00")
    return keeper


def test_the_plan_tells_moves_lifts_time_and_tools(keeper: Keeper) -> None:
    told = turning(keeper).does("day", "pantry")
    assert "A turn day of Pantry, from the top down:" in told
    assert "Tray A: to be separated (was finishing on 2)" in told
    assert "Tray D: level 1, bedding (comes in fresh)" in told
    assert "Lifts, one after the other" in told
    assert "Tools: gloves" in told
    assert "Time:" in told


def test_the_plan_as_data(keeper: Keeper) -> None:
    data = turning(keeper).asks("day", "pantry")
    assert (data["under_way"], data["fresh"], data["fed"]) == (False, ["D"], "C")
    assert data["places_lacking"] == 0
    assert {move["tray"] for move in data["moves"]} == set("ABCD")
    lift = data["lifts"][0]
    assert lift["kg"]["low"] <= lift["kg"]["mid"] <= lift["kg"]["high"]
    assert lift["lifting_index"] > 0
    assert data["minutes"]["low"] < data["minutes"]["high"]
    assert "lifting" in data["cautions"]


def test_one_tray_fewer_or_more_or_by_hand(keeper: Keeper) -> None:
    turning(keeper)
    assert keeper.asks("day", "pantry", "--fewer")["fresh"] == []
    assert "No spare tray is left" in keeper.types("day", "pantry", "--more").err
    data = keeper.asks("day", "pantry", "--order", "d,c,b=feeding", "--bedding", "leaves=0.5 kg")
    assert data["fresh"] == ["D"]
    assert [move["tray"] for move in data["moves"]] == ["A", "B", "C", "D"]
    assert "there is no tray 'x'" in keeper.types("day", "pantry", "--order", "x").err
    assert "is no stage" in keeper.types("day", "pantry", "--order", "c=sleeping").err
    assert "named twice" in keeper.types("day", "pantry", "--order", "c,C").err


def test_a_day_under_way_tells_what_is_next(keeper: Keeper) -> None:
    turning(keeper)
    profile = load(keeper.home / "pantry.toml").profile
    assert isinstance(profile, Profile)
    at = profile.journal[-1].at.replace(month=7)
    begun = TurnDayBegun(at=at, order=("D", "B", "C", "A"), separating=("A",), fresh="D")
    append(load(keeper.home / "pantry.toml"), [begun])
    told = keeper.does("day", "pantry")
    assert "is under way. Next: Open the bin and look" in told
    data = keeper.asks("day", "pantry")
    assert data["under_way"] is True
    assert data["tasks"][0] == {"step": "look", "tray": None, "number": None, "standing": "now"}
    assert keeper.asks("today")["due"][0]["what"].startswith("Turn day:")


def test_a_day_in_the_middle_of_the_lifts_tells_where_the_trays_are(keeper: Keeper) -> None:
    turning(keeper)
    path = keeper.home / "pantry.toml"
    profile = load(path).profile
    assert isinstance(profile, Profile)
    at = profile.journal[-1].at.replace(month=7)
    begun = TurnDayBegun(at=at, order=("D", "B", "C", "A"), separating=("A",), fresh="D")
    append(load(path), [begun, DayStepDone(at=at, step=DayStep.LOOK)])
    before = keeper.asks("day", "pantry")
    assert (before["stack_now"], before["places_now"]) == (["C", "A", "B"], [])
    append(load(path), [DayStepDone(at=at, step=DayStep.MOVE, tray="B", number=1)])
    data = keeper.asks("day", "pantry")
    assert data["lifts_left"] == before["lifts_left"] - 1
    assert (data["stack_now"], data["places_now"][0], data["separating"]) == (["C", "A"], ["B"], [])
    assert "Beside it: place 1: B." in keeper.does("day", "pantry")


def test_an_empty_bin_has_nothing_to_turn(keeper: Keeper) -> None:
    keeper.does("new", "Pantry")
    assert "There is nothing to turn yet" in keeper.does("day", "pantry")
