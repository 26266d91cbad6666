"""`separation` tells what is left of it and what came out of the tray, as text and as data."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from tests.cli.conftest import Keeper
from trayturn.domain.replay import replay
from trayturn.procedure.separation import NewLot, Settling, settle_between, stop
from trayturn.procedure.splitting import Split
from trayturn.storage import saving
from trayturn.storage.pair import append_both
from trayturn.storage.reading import load


def passed(keeper: Keeper, minute: int, seen: str, kg: float | None = None) -> None:
    """A pass logged at that minute of nine o'clock."""
    keeper.it_is(f"2026-07-01T09:{minute:02d}:00+02:00")
    weight = () if kg is None else ("--skimmed", f"{kg} kg")
    keeper.does("log", "pantry", "pass-done", "--worms", seen, *weight)


def running(keeper: Keeper) -> Any:
    return keeper.asks("separation", "pantry")["separations"][0]


def test_before_the_first_pass_it_rests_on_common_practice(separating: Keeper) -> None:
    told = running(separating)
    assert told["rests_on"] == "common practice"
    assert told["passes_left"]["low"] <= 4 <= told["passes_left"]["high"]
    assert told["rest_advised"]["as_set"] == told["rest_advised"]["advised"] == 15
    assert "That rests on common practice, no source." in separating.does("separation", "pantry")


def test_weighed_passes_tell_how_many_are_left(separating: Keeper) -> None:
    separating.does("log", "pantry", "checked", "A", "--weight", "6.9 kg")
    before = running(separating)["passes_left"]
    for minute, kg in ((20, 2.4), (40, 1.2)):
        passed(separating, minute, "few", kg)
    told = running(separating)
    assert told["rests_on"] == "2 passes of this tray"
    left, minutes = told["passes_left"], told["minutes_left"]
    # 40 % of the 6 kg, and a third of the rest: 2.4 kg are left, and 1.5 kg are little. One or two passes.
    assert (left["low"], left["high"]) == (1, 2)
    assert left["high"] - left["low"] < before["high"] - before["low"]
    assert minutes["low"] < minutes["mid"] <= minutes["high"]
    text = separating.does("separation", "pantry")
    assert "1 to 2 more passes, about" in text
    assert "That rests on 2 passes of this tray." in text


def test_pieces_known_to_lie_in_the_tray_are_named(separating: Keeper) -> None:
    separating.it_is("2026-06-30T09:00:00+02:00")
    separating.does("log", "pantry", "overs-carried", "C", "avocado stone=2x4cm", "--to", "A")
    separating.it_is("2026-07-01T09:30:00+02:00")
    assert "Known to lie in it: 2 x avocado stone, 4 cm, survived 1 turn." in separating.does(
        "separation", "pantry"
    )
    (known,) = running(separating)["overs"]["known"]
    assert (known["what"], known["count"], known["size_cm"], known["turns"]) == ("avocado stone", 2, 4, 1)


def test_what_came_out_is_told_while_it_runs_and_after_it(separating: Keeper) -> None:
    passed(separating, 20, "many", 2)
    separating.does(
        "log", "pantry", "contaminant-found", "sticker", "--count", "3", "--source", "banana", "--tray", "A"
    )
    separating.does("log", "pantry", "overs-carried", "A", "corn cob=1", "--to", "B")
    separating.does("log", "pantry", "worms-removed", "200 g", "--tray", "A", "--to", "Shed")
    separating.does("log", "pantry", "lot-begun", "A1", "--tray", "A", "--weight", "2 kg")
    told = running(separating)
    assert [(one["what"], one["count"], one["source"]) for one in told["contaminants"]] == [
        ("sticker", 3, "banana")
    ]
    assert told["overs"]["carried"] == [{"what": "corn cob", "count": 1, "size_cm": None, "to": "B"}]
    assert [(one["went_to"], one["worms_kg"]) for one in told["worms_moved"]] == [("Shed", 0.2)]
    assert told["lots"] == ["A1"]
    separating.does("log", "pantry", "settled", "--castings", "2kg")
    separating.does("log", "pantry", "separation-ended")
    (past,) = separating.asks("separation", "pantry")["past_separations"]
    assert past["contaminants"] == told["contaminants"]
    assert (past["passes_left"], past["rests_on"]) == (None, None)
    text = separating.does("separation", "pantry")
    for words in ("On to tray B: 1 x corn cob.", "Did not belong: 3 stickers (banana).", "Next time: "):
        assert words in text


def test_what_to_expect_next_time_is_data_too(separating: Keeper) -> None:
    assert separating.asks("separation", "pantry")["next_time"]["rests_on"] == "common practice"
    passed(separating, 20, "many", 2)
    separating.does("log", "pantry", "separation-ended")
    assert separating.asks("separation", "pantry")["next_time"]["rests_on"] == "1 tray"


def test_undo_takes_a_settling_back_with_the_worms_it_moved(separating: Keeper) -> None:
    separating.does("new", "Shed", "--trays", "2")
    separating.does("log", "shed", "started", "A", "--stage", "feeding")
    passed(separating, 20, "many", 2)
    separating.it_is("2026-07-01T09:30:00+02:00")
    now, here = datetime.fromisoformat("2026-07-01T09:30:00+02:00"), separating.home / "pantry.toml"
    profile = load(here).profile
    assert profile is not None
    saving.append(load(here), stop(replay(profile, now).separations[0], now))
    settling, worms = Settling(2.0, lot=NewLot("A1")), Split(now, 0.2, tray="A")
    append_both(
        load(here),
        load(separating.home / "shed.toml"),
        lambda one, other: settle_between(one, other, settling, worms, now),
    )
    assert running(separating)["worms_moved"][0]["went_to"] == "Shed"
    told = " ".join(separating.does("log", "pantry", "undo").split())
    assert "Taken back in Pantry: settled A, 2026-07-01 09:30, worms removed A, 2026-07-01 09:30" in told
    assert "Taken back in Shed: worms added A, 2026-07-01 09:30." in told
    assert separating.kinds("shed")[-2:] == ["worms_added", "undone"]
    assert running(separating)["lots"] == []
