"""The journal screen: newest first, filtered, told in full, and written to."""

from pathlib import Path

import pytest

from tests.builders import a_usual_bin, entry, fed, noted, undone
from tests.tui.house import NOW, ODD_TEXTS, SIZES, a_home, drawn, footer_fits, opened, shown, type_in
from trayturn.domain.entries import Note
from trayturn.domain.setup import Units
from trayturn.domain.words import clean
from trayturn.tui.screens.forms.screen import FormScreen
from trayturn.tui.screens.journal.listing import Listing, entry_row, newest_first, next_of
from trayturn.tui.screens.journal.screen import JournalScreen
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen


def test_entries_stand_newest_first_without_those_taken_back() -> None:
    early, late, gone = fed("A", 1), noted("late", 9), fed("A", 5)
    assert newest_first([late, early, gone, undone(gone, 6)]) == [(1, late), (2, early)]


def test_two_of_one_moment_stand_in_reverse_order_of_the_file() -> None:
    first, second = noted("first", 3), noted("second", 3)
    assert newest_first([first, second]) == [(2, second), (1, first)]


def test_the_end_of_a_step_is_told_by_the_next_beginning() -> None:
    begun = entry("step_started", 1, tray="A", step="skim", pass_number=1)
    assert newest_first([entry("step_ended", 1, tray="A", step="rest", pass_number=1), begun]) == [(2, begun)]


def test_a_listing_is_chosen_from_by_tray_and_kind() -> None:
    listing = Listing.of([*a_usual_bin(), noted("frost", 62), noted("mites", 63, tray="B")])
    assert (listing.trays, listing.groups) == (["A", "B", "C"], ["fed", "note", "started", "turned"])
    assert [e.kind for _, e in listing.chosen("C", None).values()] == ["turned", "tray_started"]
    assert [e.kind for _, e in listing.chosen("B", "note").values()] == ["note"]
    assert len(listing.chosen(None, None)) == 11


def test_choices_go_round_and_end_at_all() -> None:
    assert [next_of(["A", "B"], now) for now in (None, "A", "B", "gone")] == ["A", "B", None, None]


def test_a_row_tells_when_what_kind_which_tray_and_what() -> None:
    row = entry_row((3, fed("B", 61)), Units.METRIC, 3)
    assert "".join(text for text, _ in row.lines[0]) == "2026-05-01 10:00  fed         B  cabbage 500 g"
    assert row.key == "3"


@pytest.mark.parametrize("size", SIZES)
async def test_the_newest_stands_on_top(tmp_path: Path, size: tuple[int, int]) -> None:
    home = a_home(tmp_path, (*a_usual_bin(), noted("first frost", 62)))
    async with opened(home, JournalScreen("pantry"), size) as (app, _):
        lines = drawn(app).splitlines()
        assert lines[0].startswith(" Journal of Pantry  ·  10 entries   ")
        assert lines[2].startswith("▌2026-05-02 10:00  note           first frost")
        assert lines[3].startswith(" 2026-05-01 10:00  fed         B  cabbage 500 g")
        assert footer_fits(app)


async def test_filters_go_round(tmp_path: Path) -> None:
    async with opened(a_home(tmp_path, a_usual_bin()), JournalScreen("pantry")) as (app, pilot):
        entries = app.screen.query_one(LineList)
        await pilot.press("v")
        assert (len(entries.rows), "tray A" in drawn(app)) == (6, True)
        await pilot.press("g")
        assert (len(entries.rows), "  ·  fed" in drawn(app)) == (4, True)
        await pilot.press("v", "v", "v", "g", "g", "g")
        assert len(entries.rows) == 9


async def test_a_choice_that_nothing_meets_says_so(tmp_path: Path) -> None:
    async with opened(a_home(tmp_path, a_usual_bin()), JournalScreen("pantry")) as (app, pilot):
        await pilot.press("v", "v", "v", "g")
        assert "Nothing written down is of this tray and kind." in drawn(app)


async def test_an_empty_journal_says_what_will_stand_there(tmp_path: Path) -> None:
    async with opened(a_home(tmp_path), JournalScreen("pantry")) as (app, pilot):
        assert "i writes a note" in drawn(app)
        await pilot.press("enter")
        assert isinstance(app.screen, JournalScreen)


async def test_enter_tells_the_entry_in_full(tmp_path: Path) -> None:
    home = a_home(tmp_path, [noted("one\ntwo " + "x" * 300, 3)])
    async with opened(home, JournalScreen("pantry")) as (app, pilot):
        await pilot.press("enter")
        assert isinstance(app.screen, ReasonScreen)
        assert app.screen.lines[-2:] == ("one", "two " + "x" * 300)


async def test_the_marked_entry_stands_beside_in_a_wide_window(tmp_path: Path) -> None:
    async with opened(a_home(tmp_path, a_usual_bin()), JournalScreen("pantry"), SIZES[1]) as (app, pilot):
        assert shown(app, "#entry").startswith("Fed, tray B")
        await pilot.press("down")
        await pilot.pause()
        assert shown(app, "#entry").startswith("Turned\nThursday 2026-04-30 10:00")


async def test_a_note_is_written_and_taken_back(tmp_path: Path) -> None:
    async with opened(a_home(tmp_path, a_usual_bin()), JournalScreen("pantry")) as (app, pilot):
        await pilot.press("i")
        await pilot.pause()
        assert isinstance(app.screen, FormScreen)
        await type_in(app, pilot, "frost")
        await pilot.press("ctrl+s")
        await pilot.pause()
        profile = app.shelf.loaded["pantry"].profile
        assert profile is not None
        assert profile.journal[-1] == Note(at=NOW, text="frost")
        assert "note           frost" in drawn(app)
        await pilot.press("u")
        await pilot.pause()
        assert "frost" not in drawn(app)


async def test_any_text_is_listed_and_opened(tmp_path: Path) -> None:
    home = a_home(tmp_path, [noted(text, day) for day, text in enumerate(ODD_TEXTS)])
    async with opened(home, JournalScreen("pantry")) as (app, pilot):
        journal = app.screen
        assert isinstance(journal, JournalScreen)
        for place, text in enumerate(reversed(ODD_TEXTS)):
            journal.query_one(LineList).marked = place
            journal.action_open()
            await pilot.pause()
            assert isinstance(app.screen, ReasonScreen)
            assert app.screen.lines[-1] == clean(text)
            app.pop_screen()
        assert all(f"2026-03-0{day}" in drawn(app) for day in range(1, 1 + len(ODD_TEXTS)))


async def test_a_broken_profile_shows_its_problems_and_takes_nothing(tmp_path: Path) -> None:
    (tmp_path / "pantry.toml").write_text("format = 1\n[bin]\nname = 3\n", encoding="utf-8")
    async with opened(tmp_path, JournalScreen("pantry")) as (app, pilot):
        await pilot.press("i", "u", "v", "g", "enter")
        assert isinstance(app.screen, JournalScreen)
        assert "cannot be read" in drawn(app).splitlines()[0]
        assert "bin.name" in drawn(app)


async def test_escape_leaves(tmp_path: Path) -> None:
    async with opened(a_home(tmp_path), JournalScreen("pantry")) as (app, pilot):
        await pilot.press("escape")
        assert not isinstance(app.screen, JournalScreen)
