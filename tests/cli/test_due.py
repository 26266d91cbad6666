"""`today`, `next`, and what is put off or done by hand."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.conftest import Keeper

NEXT_KEYS = [
    "rank",
    "bin",
    "name",
    "tray",
    "what",
    "why",
    "resting",
    "rests_until",
    "rests",
    "days_since_fed",
    "days_between_feedings",
    "uneaten_kg",
    "caddy_kg",
    "first",
]


@pytest.fixture
def two(pantry: Keeper) -> Keeper:
    """The pantry, fed on 3 March, every 12 days; the attic, fed on 6 March, every 4 days. It is the 20th."""
    pantry.it_is("2026-03-06T10:00:00+01:00")
    pantry.does("new", "Attic", "--trays", "2", "--feed-days", "4")
    pantry.does("log", "attic", "started", "A", "--stage", "feeding")
    pantry.does("log", "attic", "fed", "A", "tea=1 kg")
    pantry.it_is("2026-03-20T10:00:00+01:00")
    return pantry


def item(keeper: Keeper, name: str, key: str = "pantry") -> Any:
    (one,) = [due for due in keeper.asks("today")["due"] if (due["bin"], due["item"]) == (key, name)]
    return one


def in_one_line(text: str) -> str:
    return " ".join(text.split())


def test_today_is_one_list_across_bins_in_order(two: Keeper) -> None:
    due = two.asks("today")["due"]
    assert [(one["item"], one["bin"]) for one in due[:4]] == [
        ("feed:A", "attic"),
        ("feed:A", "pantry"),
        ("check", "pantry"),
        ("check", "attic"),
    ]
    assert (due[0]["page"], due[0]["snoozed_until"], due[0]["late"]) == ("feeding", None, True)
    told = two.does("today")
    assert told.startswith("Due\n")
    assert told.index("Attic: Feed tray A now.") < told.index("Pantry: Feed tray A now.")


def test_today_tells_which_bin_is_next_and_which_rests_until_when(two: Keeper) -> None:
    two.does("log", "pantry", "checked", "A", "--temperature", "2C")
    told = in_one_line(two.does("today"))
    assert "Which bin next 1 Attic Feed tray A now (fed 14 days ago, every 4 days)." in told
    assert "- Pantry Rests until it is warmer (2 °C today)." in told
    assert [one["bin"] for one in two.asks("today")["next"]] == ["attic", "pantry"]


def test_next_ranks_the_bins_with_reasons(two: Keeper) -> None:
    data = two.asks("next")
    assert list(data) == ["as_of", "next"]
    first, second = data["next"]
    assert list(first) == NEXT_KEYS
    assert (first["rank"], first["bin"], first["tray"], first["resting"]) == (1, "attic", "A", False)
    assert (second["rank"], second["bin"]) == (2, "pantry")
    assert first["days_since_fed"] == 14.0
    assert first["days_between_feedings"] == 4.0
    assert 0 <= first["uneaten_kg"]["low"] < first["uneaten_kg"]["mid"] < first["uneaten_kg"]["high"] < 1
    assert first["first"]["item"] == "feed:A"
    told = two.does("next")
    assert told.index("1   Attic") < told.index("2   Pantry")
    assert "3.5 times its own interval between feedings." in in_one_line(told)
    assert "still uneaten" in told


def test_next_as_of_another_moment(two: Keeper) -> None:
    data = two.asks("next", "--at", "2026-03-08T10:00:00+01:00")
    assert [(one["bin"], one["rests_until"]) for one in data["next"]] == [
        ("attic", "2026-03-10T10:00:00+01:00"),
        ("pantry", "2026-03-15T18:30:00+01:00"),
    ]
    assert [rest["code"] for one in data["next"] for rest in one["rests"]] == ["interval", "interval"]


def test_next_tells_the_caddy_and_the_first_thing_where_it_is_another(separating: Keeper) -> None:
    separating.does("log", "pantry", "put-off", "melon=2 kg")
    (one,) = separating.asks("next")["next"]
    assert one["caddy_kg"] == {"melon": 2.0}
    assert (one["what"], one["rests_until"]) == ("Rests until tray A is separated.", None)
    told = in_one_line(separating.does("next"))
    assert "In its caddy melon 2 kg wait since today." in told
    assert "First there: Tray A waits: get ready." in told


def test_next_without_a_bin_and_with_one_that_cannot_be_read(keeper: Keeper) -> None:
    assert "trayturn new NAME" in keeper.does("next")
    keeper.does("new", "Attic")
    (keeper.home / "old.toml").write_text("format = 1\n[bin\n", encoding="utf-8")
    answer = keeper.types("next")
    assert answer.status == 1
    assert "Start the first trays." in answer.out
    assert "old cannot be read." in answer.out
    assert [one["bin"] for one in keeper.types("next", "--json").data["next"]] == ["attic"]


def test_bins_tells_the_next_thing_and_who_rests_until_when(two: Keeper) -> None:
    two.does("log", "pantry", "fed", "A", "tea=100 g")
    attic, pantry = sorted(two.asks("bins")["bins"], key=lambda one: str(one["bin"]))
    assert (attic["resting"], attic["rests_until"], attic["rests"]) == (False, None, [])
    assert (pantry["resting"], pantry["rests_until"]) == (True, "2026-04-01T10:00:00+01:00")
    assert "Rests until Wed 1 Apr (fed today, every 12 days)." in in_one_line(two.does("bins"))


def test_what_is_put_off_presses_no_more_until_then(two: Keeper) -> None:
    assert "feed A put off until 2026-03-22" in two.does(
        "log", "pantry", "snoozed", "FEED:a", "--until", "2026-03-22T00:00:00+01:00"
    )
    one = item(two, "feed:A")
    assert one["late"] is False
    assert one["due"] == one["snoozed_until"] == "2026-03-22T00:00:00+01:00"
    assert one["why"][0].startswith("Put off until Sun 22 Mar, in 2 days; it was due on Sun 15 Mar")
    assert two.asks("next")["next"][1]["rests"][0]["code"] == "put_off"
    two.it_is("2026-03-23T10:00:00+01:00")
    assert item(two, "feed:A")["late"] is True


def test_a_follow_up_is_due_and_done(two: Keeper) -> None:
    two.does("log", "pantry", "follow-up-set", "too-wet", "See whether it dried", "--by", "2026-03-19")
    one = item(two, "follow_up:too-wet")
    assert (one["kind"], one["late"], one["what"]) == ("follow_up", True, "See whether it dried.")
    assert "follow up too wet done" in two.does("log", "pantry", "done", "follow_up:too-wet")
    assert "follow_up" not in [due["kind"] for due in two.asks("today")["due"]]


def test_a_hatch_tub_can_be_seen_to_ahead_of_its_day(separating: Keeper) -> None:
    separating.does("log", "pantry", "settled", "--castings", "2 kg")
    separating.does("log", "pantry", "separation-ended")
    assert item(separating, "hatch:lure:A")["late"] is False
    separating.does("log", "pantry", "done", "hatch:lure:A")
    assert "hatch:lure:A" not in [one["item"] for one in separating.asks("today")["due"]]
    separating.it_is("2026-07-30T09:00:00+02:00")
    assert "hatch:lure:A" not in [one["item"] for one in separating.asks("today")["due"]]
    assert item(separating, "hatch:look:A")["page"] == "hatching"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("done", "feed:A"), "feed:A is done by writing down what was done, such as fed or checked."),
        (("done", "feed:Z"), "'feed:Z' is not due or coming up. What is: feed:A, check, "),
        (("snoozed", "chek", "--until", "2026-04-01"), "'chek' is not due or coming up."),
        (("snoozed", "check", "--until", "2026-03-20"), "--until has to be later than now"),
    ],
)
def test_a_word_on_nothing_is_refused(two: Keeper, words: tuple[str, ...], said: str) -> None:
    answer = two.types("log", "pantry", *words)
    assert answer.status == 2
    assert said in in_one_line(answer.err)
    assert two.kinds()[-1] == "fed"


def test_a_separation_cannot_be_put_off(separating: Keeper) -> None:
    answer = separating.types("log", "pantry", "snoozed", "separation:A", "--until", "2026-07-04")
    assert answer.status == 2
    assert "cannot be put off: Tray A waits: get ready." in in_one_line(answer.err)


def test_a_thing_that_waits_for_another_says_so(separating: Keeper) -> None:
    separating.it_is("2026-07-02T09:00:00+02:00")
    told = in_one_line(separating.does("today"))
    assert "waits Turn the stack once tray A is separated." in told
