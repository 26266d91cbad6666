"""`new`: a profile with the settings typed, and one sentence for each slip."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper
from trayturn.domain.setup import BinSetup, Pattern, Units
from trayturn.storage.reading import load


def setup_of(keeper: Keeper, key: str) -> BinSetup:
    profile = load(keeper.home / f"{key}.toml").profile
    assert profile is not None
    return profile.bin


def test_a_name_is_enough(keeper: Keeper) -> None:
    told = keeper.does("new", "Pantry")
    path = keeper.home / "pantry.toml"
    assert told.startswith(f"Made Pantry, with 4 trays to go on its stack.\nIn {path}\n")
    loaded = load(path)
    assert loaded.profile is not None
    assert [tray.id for tray in loaded.profile.trays] == ["A", "B", "C", "D"]
    assert loaded.profile.bin == BinSetup(name="Pantry")


def test_every_setting(keeper: Keeper) -> None:
    words = (
        "--units us --species mixed --place shed --trays 5 --pattern straight-up --area 1.7ft2 --depth 6in"
        " --empty 2lb --sump 4qt --turn-days 45 --feed-days 7 --check-days 3.5 --loosen-minutes 4min"
        " --rest-minutes 20 --places 3 --pile 1 --stands 12in --places-height 36in"
        " --began 2026-01-02T03:04:05+01:00 --key shed"
    )
    keeper.does("new", "Behind the house", *words.split())
    setup = setup_of(keeper, "shed")
    assert (setup.units, setup.pattern, setup.species) == (Units.US, Pattern.STRAIGHT_UP, "mixed")
    assert (setup.tray_count, setup.place, setup.days_between_turns) == (5, "shed", 45)
    assert setup.tray_area_m2 == pytest.approx(0.1579, abs=1e-4)
    assert setup.tray_depth_m == pytest.approx(0.1524)
    assert (setup.loosen_minutes, setup.rest_minutes, setup.days_between_checks) == (4, 20, 3.5)
    assert (setup.places_beside, setup.trays_on_a_place) == (3, 1)
    assert setup.stands_m == pytest.approx(0.3048)
    assert setup.places_m == pytest.approx(0.9144)
    assert setup.began is not None


def test_any_script_and_the_same_name_twice(keeper: Keeper) -> None:
    assert keeper.asks("new", "Küche")["bin"] == "kuche"
    again = keeper.types("new", "KÜCHE")
    assert again.status == 2
    assert "There is already a bin called KÜCHE" in again.err
    assert keeper.asks("new", "Kuche")["bin"] == "kuche-2"


SLIPS = {
    "no name": ((), "The following arguments are required: NAME"),
    "an empty name": ((" ",), "The name needs some text"),
    "a long name": (("x" * 81,), "The name is longer than 80"),
    "other units": (("x", "--units", "stones"), "--units needs one of 'metric' or 'us'"),
    "no such species": (("x", "--species", "dragon"), "--species"),
    "no such pattern": (("x", "--pattern", "sideways"), "--pattern needs one of"),
    "no trays": (("x", "--trays", "0"), "--trays needs 1 or more"),
    "too many trays": (("x", "--trays", "30"), "--trays needs 20 or less"),
    "trays in words": (("x", "--trays", "four"), "--trays: invalid int value"),
    "an area of another kind": (("x", "--area", "2 kg"), "--area: 'kg' is not a unit of area"),
    "too deep": (("x", "--depth", "3 m"), "--depth needs 1 or less"),
    "not a number": (("x", "--turn-days", "often"), "--turn-days: 'often' is not an amount"),
    "no rest": (("x", "--rest-minutes", "0"), "--rest-minutes needs more than 0"),
    "no place": (("x", "--places", "0"), "--places needs 1 or more"),
    "too high a pile": (("x", "--pile", "11"), "--pile needs 10 or less"),
    "a bin on the roof": (("x", "--stands", "9 m"), "--stands needs 2 or less"),
    "no time": (("x", "--began", "once"), "--began 'once' is not a time"),
    "a path for a key": (("x", "--key", "../x"), "cannot be a short name"),
    "a command for a key": (("x", "--key", "today"), "'today' is a command"),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_makes_no_profile(keeper: Keeper, slip: str) -> None:
    words, told = SLIPS[slip]
    answer = keeper.types("new", *words)
    assert (answer.status, answer.out) == (2, "")
    assert told in answer.err
    assert not keeper.home.exists()


def test_a_short_name_that_is_taken(keeper: Keeper) -> None:
    keeper.does("new", "Pantry")
    answer = keeper.types("new", "Other", "--key", "pantry")
    assert (answer.status, answer.out) == (2, "")
    assert "'pantry'" in answer.err
    assert setup_of(keeper, "pantry").name == "Pantry"


def test_figures_of_a_bin_that_is_there_are_changed(keeper: Keeper) -> None:
    keeper.does("new", "Pantry")
    told = keeper.does("change", "pantry", "--places", "3", "--rest-minutes", "20", "--stands", "40cm")
    assert told == "Changed in Pantry: rest minutes, places beside and stands m.\n"
    setup = setup_of(keeper, "pantry")
    assert (setup.places_beside, setup.rest_minutes, setup.stands_m) == (3, 20, 0.4)
    assert keeper.asks("change", "pantry", "--places", "3") == {"bin": "pantry", "changed": []}
    assert keeper.asks("change", "pantry", "--name", "Larder", "--units", "us")["changed"] == [
        "name",
        "units",
    ]
    assert setup_of(keeper, "pantry").name == "Larder"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "Nothing to change was typed"),
        (("--places", "99"), "--places"),
        (("--stands", "high"), "--stands"),
        (("--name", " "), "The name needs some text"),
    ],
)
def test_a_figure_that_cannot_be_is_refused(keeper: Keeper, words: tuple[str, ...], said: str) -> None:
    keeper.does("new", "Pantry")
    before = (keeper.home / "pantry.toml").read_bytes()
    answer = keeper.types("change", "pantry", *words)
    assert (answer.status, answer.out) == (2, "")
    assert said in answer.err
    assert (keeper.home / "pantry.toml").read_bytes() == before
