"""The ledger's screen: rows, sums and bars; Enter tells where the numbers come from."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.advice.ledger.turns import one_turn
from tests.builders import a_usual_bin, entry, moment
from tests.tui.house import a_home
from tests.tui.stories import Wrist, keeper, samples, written_elsewhere
from trayturn.domain.entries import Entry

THREE: tuple[Entry, ...] = (
    *one_turn(items={"cabbage": 4.0}, settled=2.0),
    *one_turn(day=150, items={"cabbage": 4.0}),
    *one_turn(day=300, items={"cabbage": 4.0}, settled=1.0),
)
LATER = Wrist(moment(450))


async def test_a_bins_ledger_with_its_sums_and_its_own_yield(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "stairwell") as k:
        await k.press("2")
        assert k.screen == "Ledger"
        assert k.footer_fits
        k.sees("Ledger of Stairwell", "5 of 5 turns weighed", "20 Sep 2026", "7.52 kg", "4.91 kg", "0.65")
        k.sees("in all, 5 of 5 weighed", "22.4 kg", "kg of castings for each kg of scraps", "mean 0.63")
        k.sees("0.63 (0.58 to 0.65) for each kg of scraps", "Published: 40 to 60 %")
        k.sees(">A")
        await k.press("down")
        k.sees(">D")
        await k.press("escape")
        assert k.screen == "Stack"


async def test_enter_tells_the_story_of_a_row_and_its_entries(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "stairwell") as k:
        await k.press("2", "enter")
        assert k.screen == "Reason"
        k.sees(
            "Tray A", "5 feedings", "72 % of it was water", "worms to tray B", "Where the numbers come from:"
        )
        told = k.reads("#reason")
        assert "2026-05-25  fed A: banana peel 390 g" in told
        assert "2026-09-20  separation A: castings 4.91 kg" in told
        await k.press("h")
        assert k.screen == "Handbook"
        k.sees("Castings yield")
        await k.press("escape", *["down"] * 5, "enter")
        k.sees("In all: 5 of 5 turns weighed", "standard deviation")


async def test_the_story_stands_beside_the_rows_in_a_wide_window(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "workshop", size=(120, 40)) as k:
        await k.press("2")
        k.sees("Tray B", "Tray C is being separated: 2.4 kg so far, in no sum yet.")
        assert "5.7 kg of castings: weighed when all was settled." in k.reads("#story")
        await k.press("end")
        k.sees("What was found", "stickers,")
        assert k.footer_fits


async def test_g_sets_what_had_been_forecast_beside_what_came(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("trayturn.advice.outlook.score.DRAWS", 20)
    monkeypatch.setattr("trayturn.advice.outlook.score.MOST", 2)
    async with keeper(samples(tmp_path, "stairwell"), "stairwell", size=(120, 40)) as k:
        await k.press("2")
        k.sees_no("The outlook had led to expect")
        await k.press("g")
        await k.app.workers.wait_for_complete()
        await k.pause()
        k.sees("The outlook had led to expect", "Done: past forecasts of 2 turns")
        k.sees("forecast", "held", "kg to 4.9 kg", "of 2")


async def test_forecasts_stand_in_the_table_of_a_small_window_and_of_all_bins(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("trayturn.advice.outlook.score.DRAWS", 20)
    monkeypatch.setattr("trayturn.advice.outlook.score.MOST", 1)
    async with keeper(samples(tmp_path, "stairwell", "school"), "stairwell") as k:
        await k.press("2", "g")
        await k.app.workers.wait_for_complete()
        await k.pause()
        k.sees("forecast", "held", "in all, 5 of 5", "of 1", "The outlook had led to expect", "of 1 turn;")
        assert k.footer_fits
        await k.press("escape", "escape")
        await k.app.screen.run_action("ledgers")
        await k.press("g")
        await k.app.workers.wait_for_complete()
        await k.pause()
        k.sees("bin", "forecast", "held", "Stairwell", "Done: past forecasts of 2 turns")


async def test_the_mean_is_never_on_a_line_of_another_figure(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "stairwell") as k:
        await k.press("2")
        k.sees("turn by turn, the highest 0.65")
        (line,) = [line for line in k.picture.splitlines() if "mean 0.63" in line]
        assert "0.65" not in line
        # Of five lines for 0.65 the mean of 0.63 is at 4.8: high in the topmost one.
        assert "▔ mean" in line


async def test_g_says_so_where_there_is_nothing_to_forecast(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, a_usual_bin()), "pantry", wrist=Wrist(moment(70))) as k:
        await k.press("2", "g")
        await k.app.workers.wait_for_complete()
        await k.pause()
        k.sees("No forecast could be made again")


async def test_all_bins_are_reached_by_name_from_the_first_screen(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        offered = [command.title for command in k.app.get_system_commands(k.app.screen)]
        assert "Ledger" in offered
        assert "Found" in offered
        await k.app.screen.run_action("ledgers")
        await k.pause()
        k.sees("Ledger of 5 bins", "8 of 8 turns weighed", "Room 12", "Workshop", "turn by turn of Room 12")
        await k.press("down")
        k.sees("turn by turn of Workshop")
        await k.press("end", "up")
        k.sees("in all, 8 of 8 weighed", "Stairwell, 5 of 5 weighed", "35.6 kg")
        await k.press("end", "enter")
        assert k.screen == "Found"
        k.sees("Found in 5 bins")


async def test_what_is_not_weighed_has_no_bar_and_no_yield(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, THREE), "pantry", wrist=LATER) as k:
        await k.press("2")
        k.sees("2 of 3 turns weighed", "not weighed", "2026, 1 of 2 weighed")
        bars = [line for line in k.picture.splitlines() if "?" in line and "Help" not in line]
        assert len(bars) == 1
        assert bars[0].strip().startswith("0")
        await k.press("down", "enter")
        k.sees("not weighed, and are in no sum")


async def test_a_row_that_cannot_be_is_marked_and_said_first(tmp_path: Path) -> None:
    journal = one_turn(items={"cabbage": 1.0}, settled=9.0)
    async with keeper(a_home(tmp_path, journal), "pantry", wrist=LATER) as k:
        await k.press("2")
        k.sees("! 9 kg", "! More came out of tray A than went in")
        await k.press("enter")
        k.sees("Look at the entry settled of")


@pytest.mark.parametrize("ascii_only", [False, True])
async def test_bars_are_told_without_colour(tmp_path: Path, ascii_only: bool) -> None:
    """0.5 kg of castings a kilogram, one turn not weighed, 0.25 kg: full height, a question mark, half."""
    async with keeper(a_home(tmp_path, THREE), "pantry", wrist=LATER, ascii=ascii_only) as k:
        await k.press("2")
        lines = k.picture.splitlines()
        foot = next(n for n, line in enumerate(lines) if "???" in line)
        bars = [[line[start : start + 3] for line in lines[foot - 4 : foot + 1]] for start in (7, 12, 17)]
        full, half = ("###", "###") if ascii_only else ("███", "▄▄▄")
        empty = {"   ", "---", "───", "▁▁▁", "▔▔▔"}
        assert bars[0] == [full] * 5
        assert bars[1][-1] == "???"
        assert set(bars[1][:-1]) <= empty
        assert bars[2][2:] == [half, full, full]
        assert set(bars[2][:2]) <= empty
        assert not ascii_only or k.picture.isascii()


async def test_the_bars_of_many_turns_keep_the_marked_one_in_sight(tmp_path: Path) -> None:
    many = [
        one for n in range(20) for one in one_turn(day=150 * n, items={"cabbage": 4.0}, settled=1.0 + n / 10)
    ]
    async with keeper(a_home(tmp_path, many), "pantry", wrist=Wrist(moment(3200))) as k:
        await k.press("2")
        k.sees("20 of 20 turns weighed", ">A")
        await k.press(*["down"] * 19)
        k.sees(">A")


async def test_an_empty_ledger_says_what_will_stand_there(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, a_usual_bin()), "pantry", wrist=Wrist(moment(70))) as k:
        await k.press("2")
        k.sees("No tray was separated and emptied yet.", "Enter: pieces that go round")
        assert "What nobody weighed is never guessed." in k.reads("#nothing")
        assert k.footer_fits
        await k.press("enter")
        assert k.screen == "Found"
    async with keeper(tmp_path / "none") as k:
        assert k.app.screen.check_action("ledgers", ()) is None


async def test_another_windows_turn_stands_there_at_once(tmp_path: Path) -> None:
    begun = one_turn(items={"cabbage": 4.0}, settled=2.0)
    home = a_home(tmp_path, begun[:-1])
    async with keeper(home, "pantry", wrist=LATER) as k:
        await k.press("2")
        k.sees("No tray was separated")
        written_elsewhere(home, "pantry", begun[-1:])
        await k.look()
        k.sees("1 of 1 turn weighed", "2 kg")


async def test_a_bin_that_cannot_be_read_says_so(tmp_path: Path) -> None:
    home = a_home(tmp_path, THREE)
    async with keeper(home, "pantry", wrist=LATER) as k:
        await k.press("2")
        (home / "pantry.toml").write_text("format = 1\n", encoding="utf-8")
        await k.look()
        k.sees("cannot be read", "the bin's own screen says what is wrong")
        await k.press("enter", "down", "escape")


async def test_us_units(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "school") as k:
        await k.press("2")
        k.sees("7.5 lb", "per lb scraps", "lb of castings for each lb of scraps")


async def test_a_weight_taken_back_is_gone_from_the_sums(tmp_path: Path) -> None:
    journal = (*one_turn(items={"cabbage": 4.0}, settled=2.0), entry("note", 120, text="x"))
    async with keeper(a_home(tmp_path, journal), "pantry", wrist=LATER) as k:
        await k.press("u", "u", "2")
        k.sees_no("1 of 1 turn weighed")
