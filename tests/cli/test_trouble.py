"""`trouble` at the command line: signs in, causes out, as text and as JSON."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper
from trayturn.advice.trouble.causes import CAUSES
from trayturn.advice.trouble.signs import SIGNS


def test_signs_are_listed_with_their_codes_without_a_bin(keeper: Keeper) -> None:
    told = keeper.does("trouble", "--signs")
    assert [line.split()[0] for line in told.splitlines() if line.startswith("  ")] == [s.code for s in SIGNS]
    assert [s["code"] for s in keeper.asks("trouble", "--signs")["signs"]] == [s.code for s in SIGNS]


def test_causes_are_ranked_and_the_likeliest_told_in_full(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "checked", "A", "--feel", "wet", "--smell", "rotten")
    told = pantry.does("trouble", "pantry", "--tray", "a")
    assert told.startswith("Pantry, tray A\n  It smells rotten. (from the check of today)\n")
    assert "most likely: Too wet (too-wet; " in told
    for words in ("For it", "What to do", "1. Mix torn dry paper or card in", "of dry shreds brings tray A"):
        assert words in told
    assert "these weights are our choice, none is published." in " ".join(told.split())


def test_what_is_named_adds_to_what_the_checks_saw_unless_only_it_is_asked(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "checked", "A", "--smell", "rotten")
    both = pantry.asks("trouble", "pantry", "--sign", "ants", "mould")
    assert [sign["code"] for sign in both["signs"]] == ["smell-rotten", "ants", "mould"]
    assert [sign["from"] for sign in both["signs"]] == ["from the check of today", None, None]
    only = pantry.asks("trouble", "pantry", "--only", "--sign", "ants", "--sign", "mould")
    assert [sign["code"] for sign in only["signs"]] == ["ants", "mould"]


def test_the_json_holds_every_reason_with_its_source_and_the_follow_up(pantry: Keeper) -> None:
    data = pantry.asks("trouble", "pantry", "--sign", "smell-ammonia")
    first = data["causes"][0]
    assert (first["code"], first["rank"], first["page"]) == ("much-nitrogen", "possible", "smells")
    assert first["for"][0]["words"] == "It smells of ammonia."
    assert (first["for"][0]["sure"], first["for"][0]["points"]) == ("research", 3)
    reasons = [
        r for one in data["causes"] for key in ("for", "against", "neither", "unknown") for r in one[key]
    ]
    assert all(reason["source"] and reason["sure"] for reason in reasons)
    assert all(remedy["source"] and remedy["do"] for one in data["causes"] for remedy in one["remedies"])
    assert "ammonia" in first["cautions"]
    assert first["stops_feeding"] is True
    assert (first["follow_up"]["code"], first["follow_up"]["signs"]) == ("much-nitrogen", ["smell-ammonia"])
    assert first["follow_up"]["due"] == "2026-03-13T18:30:00+01:00"
    assert data["tells_most"] is None, "nothing at the bin is unknown that bears on ammonia"


def test_trade_only_lore_is_flagged(pantry: Keeper) -> None:
    told = " ".join(pantry.does("trouble", "pantry", "--sign", "beaded").split())
    assert "Worms are swollen like beads on a string. [trade only]" in told
    assert "[trade only] said in the trade; no research and no public advice was found" in told
    assert "No research or public advice was found." in told


def test_without_a_sign_no_cause_is_claimed(pantry: Keeper) -> None:
    told = pantry.does("trouble", "pantry")
    said = "Pantry No sign is ticked, so no cause is named. List the signs with: trayturn trouble --signs"
    assert " ".join(told.split()) == said
    data = pantry.asks("trouble", "pantry")
    assert (data["signs"], data["causes"], data["tells_most"]) == ([], [], None)


def test_an_empty_bin_is_answered_from_the_signs_and_told_so(keeper: Keeper) -> None:
    keeper.does("new", "Shed")
    told = keeper.does("trouble", "shed", "--sign", "fruit-flies")
    assert "this rests on the signs alone" in " ".join(told.split())
    assert "most likely: Food lies open (exposed-food; " in told
    assert keeper.asks("trouble", "shed", "--sign", "fruit-flies")["rests_on_signs_alone"] is True


def test_another_cause_is_told_in_full_when_it_is_named(pantry: Keeper) -> None:
    told = pantry.does("trouble", "pantry", "--sign", "leaving", "--cause", "crowded")
    assert "\nMore worms than it can carry\n  " in told
    assert "\nToo wet\n" not in told


def test_as_of_an_earlier_moment_later_checks_do_not_count(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "checked", "A", "--smell", "rotten")
    assert pantry.asks("trouble", "pantry", "--at", "2026-03-02")["signs"] == []


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("pantry", "--sign", "smell-roten"), "'smell-roten' is not a sign, did you mean smell-rotten?."),
        (("pantry", "--sign", "zzz"), "is not a sign; list them with: trayturn trouble --signs."),
        (("--sign", "ants", "pantry"), "Name the bin before the signs"),
        (("pantry", "--tray", "Z"), "Tray 'Z' is not on the stack of Pantry. Its trays are C, B and A."),
        (("pantry", "--sign", "ants", "--cause", "too-wett"), "is not a cause, did you mean too-wet?"),
        (("pantry", "--sign", "ants", "--cause", "salty"), "'salty' is spoken for by no sign."),
    ],
)
def test_a_slip_is_told_in_one_sentence(pantry: Keeper, typed: tuple[str, ...], said: str) -> None:
    answer = pantry.types("trouble", *typed)
    assert (answer.status, answer.out) == (2, "")
    assert said in answer.err


def test_every_cause_can_be_told_as_text_within_80_columns(pantry: Keeper) -> None:
    for cause in CAUSES:
        sign = next(speaks.sign for speaks in cause.speaks if not speaks.against)
        told = pantry.does("trouble", "pantry", "--sign", sign, "--cause", cause.code, "--ascii")
        assert f"\n{cause.title}\n" in told
        assert told.isascii()
        assert max(map(len, told.splitlines())) < 80
