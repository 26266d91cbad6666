"""What was found: pieces that go round, sources that Space stops, and one more written down with a."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.builders import a_usual_bin, entry, moment
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, heeded, keeper, samples
from trayturn.domain.entries import Contaminant, ContaminantFound, Entry, SourceStopped
from trayturn.tui.ways import go
from trayturn.tui.widgets.line_list import LineList

SEEN = Wrist(moment(70))


def found(what: str, day: float, source: str = "", count: int = 1, **more: Any) -> Any:
    return entry("contaminant_found", day, what=what, source=source, count=count, **more)


LITTER: tuple[Entry, ...] = (
    found("sticker", 62, "banana", 9, tray="B"),
    found("tape", 63, "cardboard from parcels", 4),
    found("plastic", 64),
    entry("overs_carried", 60, tray="A", to="B", pieces=[{"what": "corn cob", "count": 2, "size_cm": 10}]),
)


async def at_found(k: Keeper, key: str | None = "pantry") -> Keeper:
    go(k.app, "found", key)
    await k.pause()
    return k


async def test_it_is_reached_from_the_ledger_and_by_name(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, (*a_usual_bin(), *LITTER)), "pantry", wrist=SEEN) as k:
        await k.press("2", "end", "enter")
        assert k.screen == "Found"
        assert k.footer_fits
        k.sees("Found in Pantry", "2 sources to stop", "! source", "banana", "9 stickers")
        k.sees("source ?", "not known from where", "goes round", "2 x corn cob, 10 cm", "in B, 1 turn")
        k.sees("peel them off before feeding", "common practice, no source")
        await k.press("escape", "escape")
        offered = [command.title for command in k.app.get_system_commands(k.app.screen)]
        assert "Found" in offered


async def test_space_stops_a_source_and_u_opens_it_again(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, (*a_usual_bin(), *LITTER)), "pantry", wrist=SEEN) as k:
        await at_found(k)
        await k.press("space")
        last = k.standing("pantry")[-1]
        assert isinstance(last, SourceStopped)
        assert (last.source, last.at) == ("banana", moment(70))
        k.sees("Marked as stopped. u takes it back", "stopped", "none since", "1 source to stop")
        await k.press("space")
        assert k.standing("pantry")[-1] == last, "it is stopped already"
        await k.press("u")
        k.sees("Taken back: source stopped", "! source    banana")


async def test_what_has_no_name_or_goes_round_cannot_be_stopped(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, (*a_usual_bin(), *LITTER)), "pantry", wrist=SEEN) as k:
        await at_found(k)
        before = k.standing("pantry")
        await k.press("down", "down", "space")
        k.sees("Write down what it came in with")
        await k.press("down", "space")
        assert k.standing("pantry") == before
        await k.press("enter")
        k.sees("Corn cob", "carried on once", "Break it up before it goes on", "several turns")
        await k.press("h")
        k.sees("Pieces, contaminants")


async def test_a_writes_down_one_with_the_marked_source(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, (*a_usual_bin(), *LITTER)), "pantry", wrist=SEEN) as k:
        await at_found(k)
        await k.press("a")
        assert k.screen == "Form"
        k.sees("Found in Pantry", "3 sticker", "banana")
        await k.press("2", "ctrl+s")
        last = k.standing("pantry")[-1]
        assert isinstance(last, ContaminantFound)
        assert (last.what, last.count, last.source, last.tray) == (Contaminant.TAPE, 1, "banana", None)
        k.sees("9 stickers and 1 piece of tape", "Written down. u takes it back")
        await k.press("u")
        k.sees_no("1 piece of tape")


async def test_a_number_that_cannot_be_is_said_beside_it_and_nothing_is_lost(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, a_usual_bin()), "pantry", wrist=SEEN) as k:
        await at_found(k)
        k.sees("Nothing was written down yet", "a writes down what was found.")
        await k.press("enter", "space", "a", "tab", "backspace")
        await k.type("none")
        await k.press("tab")
        await k.type("melon net")
        await k.press("ctrl+s")
        k.sees("'none' is not a whole number", "melon net")
        await k.press("ctrl+u")
        await k.type("2")
        await k.press("ctrl+s")
        last = k.standing("pantry")[-1]
        assert isinstance(last, ContaminantFound)
        assert (last.count, last.source) == (2, "melon net")
        k.sees("melon net", "2 stickers")


async def test_what_came_again_stands_out(tmp_path: Path) -> None:
    again = (entry("source_stopped", 65, source="banana"), found("sticker", 68, "Banana", 1))
    async with keeper(a_home(tmp_path, (*a_usual_bin(), *LITTER, *again)), "pantry", wrist=SEEN) as k:
        await at_found(k)
        k.sees("! again", "10 stickers")
        assert "after you stopped it (5 May 2026)" in k.reads("#story")


async def test_notes_of_passes_are_shown_as_words(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "stairwell") as k:
        await at_found(k, "stairwell")
        await k.press("end")
        k.sees("noted", "tray A, 24 Jan 2026", "pieces: two avocado shells", "in no count")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_rows_are_wrapped_and_none_is_cut(tmp_path: Path, size: tuple[int, int]) -> None:
    async with keeper(samples(tmp_path), "stairwell", size=size) as k:
        await at_found(k, "stairwell")
        rows = k.app.screen.query_one(LineList)
        room = rows.scrollable_content_region.width - 1
        assert all(sum(len(text) for text, _ in line) <= room for row in rows.rows for line in row.lines)
        told = " ".join(" ".join(line[-1][0] for line in row.lines) for row in rows.rows)
        assert "pieces: two avocado shells; found: fruit stickers" in told
        k.sees_no("…")


async def test_of_all_bins_each_row_names_its_own(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await at_found(k, None)
        k.sees("Found in 5 bins", "Stairwell", "Room 12")
        await k.press("end")
        rows = [line for line in k.picture.splitlines() if "noted  " in line]
        days = ["21 Nov 2026", "24 Jan 2026"]
        assert [day in row for day, row in zip(days, rows, strict=True)] == [True, True], "the newest first"
        await k.press("home")
        assert k.app.screen.check_action("undo", ()) is None
        await k.press("a", "ctrl+s")
        k.sees("14 stickers, last 21 Nov 2026")
        await k.press("u")
        k.sees("13 stickers, last 24 Jul 2026")


async def test_the_composer_says_what_came_in_before(tmp_path: Path) -> None:
    home = heeded(tmp_path)
    async with keeper(home, "pantry") as k:
        k.app.save(
            "pantry", [ContaminantFound(at=k.wrist.now, what=Contaminant.STICKER, count=3, source="banana")]
        )
        await k.press("f", "a")
        await k.type("banana peel")
        await k.press("enter")
        await k.press("plus", "enter")
        k.sees("3 stickers came in with")


async def test_a_fresh_tray_says_it_of_its_bedding(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, (*a_usual_bin(), *LITTER)), "pantry", wrist=SEEN) as k:
        await k.press("a", "tab")
        await k.type("cardboard=500 g")
        k.sees("4 pieces of tape came in with cardboard from parcels", "before shredding.")
        await k.press("backspace")
        await k.type("x")
        k.sees_no("4 pieces of tape")


async def test_a_bin_that_cannot_be_read_says_so(tmp_path: Path) -> None:
    home = a_home(tmp_path, (*a_usual_bin(), *LITTER))
    async with keeper(home, "pantry", wrist=SEEN) as k:
        await at_found(k)
        (home / "pantry.toml").write_text("format = 1\n", encoding="utf-8")
        await k.look()
        k.sees("cannot be read")
        await k.press("a", "space", "enter")
        assert k.screen == "Found"


async def test_odd_words_are_drawn_as_they_are(tmp_path: Path) -> None:
    odd = (found("other", 62, "[/red] {a[0]}", 1), found("other", 63, "x" * 200, 1))
    async with keeper(a_home(tmp_path, (*a_usual_bin(), *odd)), "pantry", wrist=SEEN) as k:
        await at_found(k)
        await k.press("down")
        k.sees("[/red] {a[0]}")
        await k.press("space")
        assert isinstance(k.standing("pantry")[-1], SourceStopped)
