"""Putting right by keyboard: tick, read the causes, take one; and come back to what was ticked."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.builders import entry, fed, moment, started
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, keeper, samples
from trayturn.domain.entries import Entry, FollowUpSet
from trayturn.tui.screens.put_right.screen import PutRightScreen
from trayturn.tui.widgets.line_list import LineList

WET: tuple[Entry, ...] = (
    started("B", 0),
    started("A", 0, level=2, stage="feeding"),
    fed("A", 38),
    entry("checked", 39, tray="A", feel="wet", smell="rotten", pests=("ants",)),
)
TODAY = Wrist(moment(40))


def _wet(home: Path, **setup: str) -> Path:
    return a_home(home, WET, **setup)


def _ticked(k: Keeper) -> list[str]:
    screen = k.app.screen
    assert isinstance(screen, PutRightScreen)
    assert screen.inquiry is not None
    return list(screen.inquiry.ticks)


def _causes(k: Keeper) -> list[str]:
    return [row.key for row in k.app.screen.query_one("#causes", LineList).rows]


async def test_what_a_check_saw_is_ticked_and_says_so_and_can_be_unticked(tmp_path: Path) -> None:
    async with keeper(_wet(tmp_path), "pantry", wrist=TODAY) as k:
        await k.press("o")
        k.sees("Put right", "Pantry", "tray A", "[✓] rotten", "from the check of yesterday")
        assert _ticked(k) == ["smell-rotten", "drips", "ants"]
        assert _causes(k)[0] == "too-wet"
        await k.press("space")
        assert _ticked(k) == ["drips", "ants"]
        k.sees("[ ] rotten")
        await k.press("space")
        k.sees("[✓] rotten")


async def test_causes_are_ranked_live_as_signs_are_ticked(tmp_path: Path) -> None:
    async with keeper(_wet(tmp_path), "pantry", wrist=TODAY) as k:
        await k.press("o", "space", "3", "space", "5")
        before = _causes(k)
        assert "dry-grain" not in before
        await k.press("down", "down")
        k.sees("grain mites")
        await k.press("space")
        assert "dry-grain" in _causes(k)
        k.sees("Causes, the likeliest first")


async def test_digits_jump_to_each_group(tmp_path: Path) -> None:
    async with keeper(_wet(tmp_path), "pantry", wrist=TODAY) as k:
        await k.press("o")
        signs = k.app.screen.query_one("#signs", LineList)
        marked = []
        for digit in "54321":
            await k.press(digit)
            marked.append(signs.marked_key)
        assert marked == ["white-mites", "uneaten", "drips", "leaving", "smell-rotten"]


async def test_a_marked_sign_tells_what_is_known_of_it_and_who_says_so(tmp_path: Path) -> None:
    async with keeper(_wet(tmp_path), "pantry", wrist=TODAY) as k:
        await k.press("o", "5", "down")
        told = k.reads("#sign")
        assert told.startswith("They live on worms.")
        assert "NC State Extension" in told
        await k.press("down", "down", "down", "down", "down", "down")
        assert k.reads("#sign") == "Ticked from the check of yesterday. "


async def test_a_cause_is_told_whole_and_taken_and_taken_back(tmp_path: Path) -> None:
    async with keeper(_wet(tmp_path), "pantry", wrist=TODAY) as k:
        await k.press("o", "enter")
        k.sees("most likely", "Too wet", "Space takes it", "For: ", "First: Mix torn dry paper", "Look again")
        await k.press("enter")
        assert k.screen == "Cause"
        k.sees("Too wet", "For it", "+++ Tray A was about 90 % wet", "Space takes it")
        whole = k.reads("#reason")
        for words in ("What to do", "When to worry", "Mind", "Sources", "[1] Kaplan et al. 1980"):
            assert words in whole
        before = k.standing("pantry")
        await k.press("space")
        assert k.screen == "PutRight"
        taken = k.standing("pantry")[len(before) :]
        assert isinstance(taken[0], FollowUpSet)
        assert (taken[0].code, taken[0].tray, len(taken)) == ("too-wet", "A", 1)
        assert taken[0].signs == ("smell-rotten", "drips", "ants")
        k.sees("On the due list for Fri 17 Apr. u takes it back", "taken, look again Fri 17 Apr")
        await k.press("space")
        k.sees("On the due list already, for Fri 17 Apr")
        assert len(k.standing("pantry")) == len(before) + 1
        await k.press("u")
        assert k.standing("pantry") == before
        k.sees_no("taken, look again")


async def test_feeding_heeds_what_was_taken(tmp_path: Path) -> None:
    async with keeper(_wet(tmp_path), "pantry", wrist=TODAY) as k:
        await k.press("o", "enter", "space", "escape", "tab")
        assert k.screen == "Stack"
        due = next(row for row in k.app.screen.due if row.kind == "feed")  # type: ignore[attr-defined]
        assert any(line.startswith("Food is held back until the follow-up") for line in due.why)


async def test_it_is_left_and_found_again_as_it_was_for_that_day(tmp_path: Path) -> None:
    wrist = Wrist(moment(40))
    async with keeper(_wet(tmp_path), "pantry", wrist=wrist) as k:
        await k.press("o", "space", "2", "space", "escape")
        assert k.screen == "Stack"
        await k.press("o")
        assert _ticked(k) == ["leaving", "drips", "ants"]
        await k.press("escape")
        wrist.forward(hours=13)
        await k.press("o")
        assert _ticked(k) == ["smell-rotten", "drips", "ants"]


async def test_b_goes_back_and_v_goes_through_trays_to_the_whole_bin(tmp_path: Path) -> None:
    async with keeper(_wet(tmp_path), "pantry", wrist=TODAY) as k:
        await k.press("o", "enter")
        k.sees_no("[ ]")
        await k.press("b")
        k.sees("[ ]", "Tick what you see")
        scopes = []
        for _ in range(3):
            await k.press("v")
            scopes.append((k.title.split("·")[-1].strip(), _ticked(k)))
        seen = ["smell-rotten", "drips", "ants"]
        assert scopes == [("whole bin", seen), ("tray B", []), ("tray A", seen)]


async def test_without_a_sign_no_cause_is_named_and_enter_says_so(tmp_path: Path) -> None:
    quiet = (started("A", 0, stage="feeding"),)
    async with keeper(a_home(tmp_path, quiet), "pantry", wrist=TODAY) as k:
        await k.press("o")
        k.sees("No sign is ticked, so no cause is named.")
        assert _causes(k) == []
        await k.press("enter")
        assert not k.app.screen.query_one("#causes", LineList).has_focus


async def test_an_empty_bin_answers_from_the_signs_alone_and_says_so(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path), "pantry", wrist=TODAY) as k:
        await k.press("o", "down", "space")
        k.sees("whole bin", "most likely", "Too much nitrogen for its carbon", "rests on the signs alone")
        await k.press("enter", "space")
        assert [one.kind for one in k.standing("pantry")] == ["follow_up_set"]


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_all_that_is_needed_to_act_is_in_sight(tmp_path: Path, size: tuple[int, int]) -> None:
    async with keeper(_wet(tmp_path), "pantry", wrist=Wrist(moment(40)), size=size) as k:
        await k.press("o")
        assert k.footer_fits
        k.sees("[✓] rotten", "most likely", "Too wet")
        await k.press("enter")
        assert k.footer_fits
        k.sees("Mix torn dry paper")
        assert "of dry shreds brings tray A down to 75 % wet" in k.reads("#cause")
        scrolled = [w.id for w in k.app.screen.query("#causes, #telling") if w.show_vertical_scrollbar]
        assert scrolled == ([] if size == (80, 24) else ["telling"])


async def test_a_wide_window_has_signs_causes_and_the_marked_cause_side_by_side(tmp_path: Path) -> None:
    async with keeper(_wet(tmp_path), "pantry", wrist=Wrist(moment(40)), size=(120, 40)) as k:
        await k.press("o")
        k.sees("5 life", "mice or rats", "Causes, the likeliest first", "What to do", "For it")
        assert not k.app.screen.query_one("#signs", LineList).show_vertical_scrollbar
        first = k.reads("#cause")
        assert first.startswith("Most likely. Water fills the gaps")
        await k.press("enter", "down")
        k.sees("[✓] rotten")
        assert k.reads("#cause") != first
        assert k.reads("#cause").startswith("Most likely. Bedding takes up water")


async def test_a_broken_file_is_told_and_nothing_is_written(tmp_path: Path) -> None:
    file = _wet(tmp_path) / "pantry.toml"
    async with keeper(tmp_path, "pantry", wrist=TODAY) as k:
        await k.press("o", "enter")
        whole = file.read_text(encoding="utf-8")
        file.write_text(whole + "\n[[journal]]\nkind = 'nonsense'\n", encoding="utf-8")
        await k.look()
        k.sees("cannot be read")
        await k.press("space", "enter", "v", "u")
        assert file.read_text(encoding="utf-8").endswith("nonsense'\n")
        file.write_text(whole, encoding="utf-8")
        await k.look()
        k.sees("Put right", "tray A", "Too wet")


async def test_another_windows_check_is_seen_at_once(tmp_path: Path) -> None:
    from tests.tui.stories import written_elsewhere

    async with keeper(_wet(tmp_path), "pantry", wrist=TODAY) as k:
        await k.press("o")
        written_elsewhere(tmp_path, "pantry", [entry("checked", 39.9, tray="A", feel="dry")])
        await k.look()
        assert "dry" in _ticked(k)
        assert "drips" not in _ticked(k)


async def test_the_samples_can_all_be_asked_about(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        for name in ("laundry", "pantry", "school", "stairwell", "workshop"):
            k.app.open_bin(name)
            await k.pause()
            await k.press("o", "space", "enter", "enter", "escape", "b", "v", "escape", "escape")
            assert k.screen == "Bins"


async def test_c_tells_the_cautions_of_putting_right(tmp_path: Path) -> None:
    async with keeper(_wet(tmp_path), "pantry", wrist=TODAY) as k:
        await k.press("o", "c")
        k.sees("before putting right", "Ammonia: air the room first", "Flatworms: no bare hands")
        await k.press("escape")
        assert k.screen == "PutRight"
