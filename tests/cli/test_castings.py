"""`castings`: lots with what comes next, tubs from before, potting mixes, and what is refused."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper


def test_lots_in_words_and_as_data(pantry: Keeper) -> None:
    assert "No castings are kept here yet." in pantry.does("castings", "pantry")
    pantry.does("log", "pantry", "lot-begun", "A1", "--tray", "a", "--weight", "4kg")
    told = pantry.does("castings", "pantry")
    assert "A1: hatching" in told
    assert "Lay a bait on lot A1 in" in told
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert (lot["lot"], lot["stage"], lot["next"], lot["left_kg"]) == ("A1", "hatching", "lure", 4.0)
    pantry.does("log", "pantry", "packed", "A1", "jar", "1kg")
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert lot["jars"][0]["left_kg"] == 1.0
    assert lot["jars"][0]["use_by"].startswith("2026-05-02")


def test_when_to_lure_and_when_it_has_hatched(pantry: Keeper) -> None:
    """At 20 C half have hatched after 23 to 25 days, and 95 % by 1.32 times that (tests of hatching)."""
    begun = ("log", "pantry", "lot-begun", "A1", "--tray", "a", "--weight", "4kg")
    pantry.does(*begun, "--at", "2026-03-01T09:00+01:00")
    pantry.it_is("2026-03-26T09:00:00+01:00")
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert lot["lure_from"].startswith("2026-03-24")
    assert lot["half_hatched"]["high"].startswith("2026-03-26")
    assert lot["hatched"]["low"].startswith("2026-03-31")
    assert lot["hatched"]["high"].startswith("2026-04-03")
    pantry.does("log", "pantry", "lure-set", "A1", "melon")
    pantry.does("log", "pantry", "hatchlings-recovered", "A1", "--counted", "30")
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert lot["lures"][0]["bait"] == "melon"
    assert lot["hatchlings"] == 30
    assert pantry.asks("castings", "pantry", "--at", "2026-03-20")["lots"][0]["lures"] == []


def test_drying_and_sieving_as_data(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "lot-begun", "A1", "--weight", "4kg", "--stage", "drying")
    moved = ("log", "pantry", "lot-moved", "A1", "drying")
    pantry.does(*moved, "--weight", "4kg", "--moisture", "75")
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert lot["sieves_at_kg"] == pytest.approx(2.5)
    assert lot["cocoons"] is None
    assert "no tray of this bin" in lot["rests_on"]
    pantry.does(*moved, "--weight", "2.5kg")
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert lot["moisture_now_pct"] == pytest.approx(60)
    assert lot["next"] == "sieve"
    pantry.does("log", "pantry", "sieved", "A1", "--mesh", "4mm", "--passed", "2kg", "--oversize", "0.5kg")
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert lot["sieved"][0]["share_passed"] == pytest.approx(0.8)


def test_a_tub_from_before_and_the_command_that_takes_it_up(pantry: Keeper) -> None:
    tray = pantry.asks("stack", "pantry")["trays"][0]["id"]
    pantry.does("log", "pantry", "separation-begun", tray)
    pantry.does("log", "pantry", "settled", tray, "--castings", "3kg")
    pantry.does("log", "pantry", "separation-ended", tray)
    (tub,) = pantry.asks("castings", "pantry")["tubs"]
    assert (tub["tray"], tub["kg"]) == (tray, 3.0)
    told = pantry.does("castings", "pantry")
    command = next(line for line in told.splitlines() if "lot-begun" in line).split()
    pantry.does(*command[command.index("trayturn") + 1 :])
    found = pantry.asks("castings", "pantry")
    assert found["tubs"] == []
    assert (found["lots"][0]["lot"], found["lots"][0]["kg"]) == (f"{tray}1", 3.0)
    assert found["lots"][0]["begun"] == tub["since"]


def test_a_mix_is_reckoned_and_too_much_refused(pantry: Keeper) -> None:
    told = pantry.does("castings", "pantry", "--mix", "20l", "--share", "15")
    assert "For 20 l of mix at 15 %: 3 l of castings, about 2.1 kg to 2.7 kg." in told
    assert "By 0.7 to 0.9 kg a litre" in told
    assert "Mota" in pantry.types("castings", "pantry", "--mix", "20l", "--share", "60").err
    data = pantry.asks("castings", "pantry", "--mix", "10l", "--share", "60", "--despite")
    assert (data["mix_l"], data["castings_l"]) == (10.0, pytest.approx(6.0))
    assert "--share needs" in pantry.types("castings", "pantry", "--mix", "10l", "--share", "0").err


def test_nothing_is_given_away_before_the_caution(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "lot-begun", "A1", "--weight", "4kg")
    refused = pantry.types("log", "pantry", "castings-given", "A1", "--sold")
    assert refused.status != 0
    assert "local authority" in refused.err
    assert "castings_given" not in pantry.kinds()
    pantry.does("log", "pantry", "castings-given", "A1", "--sold", "--rules-read")
    assert "castings_given" in pantry.kinds()


@pytest.mark.parametrize(
    ("share", "said"), [("15", ""), ("25", "Mind: Above 20 %"), ("40", "Mind: 40 % is more than is advised")]
)
def test_a_share_above_the_usual_is_written_down_and_minded(pantry: Keeper, share: str, said: str) -> None:
    pantry.does("log", "pantry", "lot-begun", "A1", "--weight", "4kg")
    told = pantry.does("log", "pantry", "castings-used", "A1", "--amount", "1kg", "--share", share)
    assert ("Mind:" in told) is bool(said)
    assert said in told


def test_more_than_half_of_a_mix_needs_despite(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "lot-begun", "A1", "--weight", "4kg")
    assert "--despite" in pantry.types("log", "pantry", "castings-used", "A1", "--share", "70").err
    assert "castings_used" not in pantry.kinds()
    told = pantry.does("log", "pantry", "castings-used", "A1", "--share", "70", "--despite")
    assert "leaves too little air" in told


@pytest.mark.parametrize(
    "act",
    [
        ("packed", "A1", "jar", "1kg"),
        ("castings-used", "A1", "--amount", "4kg"),
        ("castings-given", "A1", "--amount", "1kg", "--rules-read"),
    ],
)
def test_what_still_hatches_is_written_down_and_said(pantry: Keeper, act: tuple[str, ...]) -> None:
    pantry.does("log", "pantry", "lot-begun", "A1", "--tray", "a", "--weight", "4kg")
    assert "warning: It still hatches: cocoons and young would go with it" in " ".join(
        pantry.does("log", "pantry", *act).split()
    )
    pantry.does("log", "pantry", "undo")
    pantry.does("log", "pantry", "lot-moved", "A1", "ready")
    assert "It still" not in pantry.does("log", "pantry", *act)


def test_one_rule_by_when_castings_are_best_used(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "lot-begun", "A1", "--weight", "4kg")
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert lot["use_by"] is None
    assert lot["use_by_rests_on"].startswith("Best used within 60 days of being ready")
    pantry.does("log", "pantry", "lot-moved", "A1", "ready")
    pantry.it_is("2026-03-26T09:00:00+01:00")
    pantry.does("log", "pantry", "packed", "A1", "jar", "1kg")
    (lot,) = pantry.asks("castings", "pantry")["lots"]
    assert lot["use_by"] == lot["jars"][0]["use_by"]
    assert lot["use_by"].startswith("2026-05-02")
    assert "60 days from being ready (Harit et al. 2014)" in " ".join(
        pantry.does("castings", "pantry").split()
    )


def test_a_mix_needs_a_unit(pantry: Keeper) -> None:
    refused = pantry.types("castings", "pantry", "--mix", "20")
    assert refused.status != 0
    assert "--mix 20 needs a unit, such as --mix 20l." in refused.err
