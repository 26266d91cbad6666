"""`begin`: what a new bin begins with, of a bin or of a tray that is only thought of."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper


def test_a_new_bin_is_led_to_its_plan_and_from_step_to_step(keeper: Keeper) -> None:
    assert "trayturn begin pantry" in keeper.does("new", "Pantry")
    told = keeper.does("begin", "pantry")
    assert told.startswith("Starting Pantry\n")
    assert "1  Soak the bedding: About 480 g of dry shreds in 1.4 kg of water" in told
    assert "2  Fill tray A: Loosely" in told
    for expected in ("started A", "worms-added", "fed A"):
        command = keeper.does("begin", "pantry").splitlines()[-1].strip()
        assert expected in command
        keeper.does(*_words(command)[1:])
    told = keeper.does("begin", "pantry")
    assert told.splitlines()[-1].startswith("What to mind before")
    assert told.count("(done)") == 4
    assert keeper.kinds() == ["tray_started", "worms_added", "fed"]


def _words(command: str) -> list[str]:
    """A printed command as the shell would take it apart."""
    import shlex

    return shlex.split(command)


def test_the_same_in_pounds(keeper: Keeper) -> None:
    keeper.does("new", "Shed", "--units", "us", "--area", "1.7ft2", "--depth", "6in")
    command = keeper.does("begin", "shed").splitlines()[-1].strip()
    assert "shredded cardboard=1.1 lb" in command
    keeper.does(*_words(command)[1:])
    assert "1.1 lb" in keeper.does("journal", "shed")


def test_a_plan_before_there_is_a_bin(keeper: Keeper) -> None:
    data = keeper.asks("begin", "--area", "0.16m2", "--depth", "15cm")
    assert (data["bin"], data["name"], data["as_of"]) == (None, None, None)
    assert data["bedding_kg"] == {"low": 0.384, "about": 0.48, "high": 0.576}
    assert data["water_kg"] == {"low": 1.152, "about": 1.4, "high": 1.728}
    assert (data["worms_kg"], data["worms_best_kg"], data["worms_most_kg"]) == (0.26, 0.256, 0.8)
    assert data["worms_number"] == {"low": 473, "high": 1040}
    assert [meal["share"] for meal in data["meals"]] == [0.25, 0.5, 1.0]
    assert data["meals"][0]["kg"] == {"low": 0.156, "about": 0.273, "high": 0.39}
    assert [step["code"] for step in data["steps"]] == [
        "soak",
        "fill",
        "worms",
        "meal",
        "cover",
        "light",
        "look",
    ]
    assert not keeper.home.exists()


def test_worms_and_species_are_asked_about(keeper: Keeper) -> None:
    area = ("begin", "--area", "0.16m2")
    assert keeper.asks(*area, "--worms", "500g")["worms_number"] == {"low": 909, "high": 2000}
    assert keeper.asks(*area, "--species", "mixed")["worms_number"] is None
    told = keeper.does("begin", "--area", "1.7 ft2", "--depth", "6 in", "--us", "--worms", "1 lb")
    assert "The 1 lb you have (820 to 1,800 worms)" in told
    assert "trayturn log" not in told


def test_a_bin_as_it_was_and_as_data(pantry: Keeper) -> None:
    data = pantry.asks("begin", "pantry", "--at", "2026-03-02")
    assert (data["bin"], data["as_of"]) == ("pantry", "2026-03-02T00:00:00+00:00")
    assert [step["done"] for step in data["steps"]] == [True, True, False, False, None, None, None]
    assert [step["done"] for step in pantry.asks("begin", "pantry")["steps"]][3] is True


SLIPS = {
    "neither": ((), "Name a bin, or the tray to begin with"),
    "both": (("pantry", "--area", "0.16m2"), "--area is for a bin not made yet"),
    "us of a bin": (("pantry", "--us"), "--us is for a bin not made yet"),
    "no such bin": (("cellar",), "There is no bin called 'cellar'"),
    "no area": (("--area", "2 kg"), "--area: 'kg' is not a unit of area"),
    "too deep": (("--area", "0.16m2", "--depth", "9m"), "--depth needs 1 or less"),
    "no such species": (("--area", "0.16m2", "--species", "dragon"), "--species"),
    "a moment of nothing": (("--area", "0.16m2", "--at", "2026-03-01"), "--at is of a bin"),
    "no worms at all": (("pantry", "--worms", "lots"), "--worms: 'lots' is not an amount"),
    "too many worms": (("pantry", "--worms", "2000kg"), "The mass of worms needs to be from 0 to 1000 kg"),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_told_in_a_sentence(pantry: Keeper, slip: str) -> None:
    words, told = SLIPS[slip]
    answer = pantry.types("begin", *words)
    assert (answer.status, answer.out) == (2, "")
    assert told in answer.err


def test_the_first_looks_come_up_today(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "worms-added", "300g")
    assert "Tomorrow: lift the lid and see where the worms are." in pantry.does("today")
    pantry.it_is("2026-03-04T20:00:00+01:00")
    assert "Lift the lid and see where the worms are." in pantry.does("today")
    pantry.does("log", "pantry", "done", "watch:day-1")
    assert "In 2 days: see whether the first meal is being worked." in pantry.does("today")
