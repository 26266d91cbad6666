"""The past year: arrows mark a week and go from bin to bin, Enter tells what was written in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.builders import a_usual_bin, entry, fed, moment
from tests.tui.house import a_home
from tests.tui.stories import Wrist, keeper, samples


async def test_a_year_of_all_bins_from_the_first_screen(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await k.press("l")
        assert k.screen == "Past"
        assert k.footer_fits
        k.sees("The past year of 5 bins", "feedings", "castings", "Dec", "since 17 Nov 2025")
        k.sees("Week 47, Mon 16 to Sun 22 Nov 2026 so far: 1 feeding with 737 g of scraps")
        k.sees("108 kg in 77 feedings", "115 kg in 82 feedings", "Longest without a check: 41 days")
        await k.press("escape")
        assert k.screen == "Bins"


async def test_the_arrows_mark_a_week_and_enter_tells_its_entries(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "stairwell") as k:
        await k.press("l")
        k.sees("The past year of Stairwell")
        await k.press("right")
        k.sees("Week 47")
        await k.press("left")
        k.sees("Week 46, Mon 9 to Sun 15 Nov 2026: 1 feeding with 1.41 kg of scraps, 2 checks")
        await k.press("enter")
        assert k.screen == "Reason"
        k.sees("Week 46", "Wed 18:05  fed C: beetroot peel 370 g")
        await k.press("escape", *["minus"] * 60)
        k.sees("Week 47, Mon 17 to Sun 23 Nov 2025")
        await k.press("plus")
        k.sees("Week 48")


async def test_up_and_down_go_round_the_bins(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "stairwell") as k:
        await k.press("l", "down")
        k.sees("The past year of Workshop")
        await k.press("down")
        k.sees("The past year of 5 bins")
        await k.press("up", "up")
        k.sees("The past year of Stairwell")
        await k.press("escape")
        assert k.screen == "Stack"


async def test_the_week_stands_open_in_a_wide_window(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "stairwell", size=(120, 40)) as k:
        await k.press("l", "left")
        k.sees("Sat 09:48  checked D: damp", "since 17 Nov 2025", "since 20 Sep 2025")
        assert k.footer_fits
        await k.resize(80, 24)
        k.sees("43 kg in 30 feedings", "49.2 kg in 35 feedings")


async def test_what_is_taken_back_is_gone_at_once(tmp_path: Path) -> None:
    home = a_home(tmp_path, (*a_usual_bin(), fed("B", 69)))
    async with keeper(home, "pantry", wrist=Wrist(moment(70))) as k:
        await k.press("l")
        k.sees("3 kg in 6 feedings")
        await k.press("escape", "u", "l")
        k.sees("2.5 kg in 5 feedings")


async def test_an_empty_year_says_what_will_stand_there(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path), "pantry", wrist=Wrist(moment(0))) as k:
        await k.press("l")
        k.sees("Nothing was fed, checked or turned yet.", "f writes down a feeding")
        await k.press("enter", "left", "down")
        assert k.screen == "Past"
    async with keeper(tmp_path / "none") as k:
        await k.press("l")
        k.sees("Nothing was fed, checked or turned yet.")


@pytest.mark.parametrize("ascii_only", [False, True])
async def test_the_shades_are_signs_of_their_own(tmp_path: Path, ascii_only: bool) -> None:
    """Feedings of one to four in a week, and none in the week after: each has another sign."""
    meals = [fed("B", 71 + 14 * week + n) for week in range(4) for n in range(week + 1)]
    home = a_home(tmp_path, (*a_usual_bin(), *meals))
    async with keeper(home, "pantry", wrist=Wrist(moment(120)), ascii=ascii_only) as k:
        await k.press("l")
        row = next(line for line in k.picture.splitlines() if line.strip().startswith("feedings"))
        signs = ".:+#" if ascii_only else "░▒▓█"
        assert [sign for sign in row if sign in signs][-4:] == list(signs)
        assert ("-" if ascii_only else "·") in row
        k.sees("^" if ascii_only else "▲")
        assert not ascii_only or k.picture.isascii()


async def test_a_click_marks_a_week(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "stairwell") as k:
        await k.press("l")
        await k.pilot.click("#year", offset=(10, 2))
        k.sees("Week 47, Mon 17 to Sun 23 Nov 2025")


async def test_a_bin_that_cannot_be_read_is_left_out(tmp_path: Path) -> None:
    home = samples(tmp_path, "stairwell", "school")
    (home / "school.toml").write_text("format = 1\n[bin]\nname = 1\n", encoding="utf-8")
    async with keeper(home) as k:
        await k.press("l")
        k.sees("The past year of 1 bin", "43 kg in 30 feedings")
        await k.press("up")
        k.sees("The past year of Stairwell")
        (home / "stairwell.toml").write_text("format = 1\n", encoding="utf-8")
        await k.look()
        k.sees("cannot be read", "the bin's own screen says what is wrong")


async def test_a_week_of_many_entries_ends_with_a_word(tmp_path: Path) -> None:
    checks = [entry("checked", 69 + n / 100, feel="damp") for n in range(40)]
    home = a_home(tmp_path, (*a_usual_bin(), *checks))
    async with keeper(home, "pantry", wrist=Wrist(moment(70)), size=(120, 40)) as k:
        await k.press("l")
        k.sees("and more; Enter tells all of it.")
