"""The check with gloves on: picked, stepped and saved; what cannot be is refused beside its row."""

from __future__ import annotations

from contextlib import AbstractAsyncContextManager
from pathlib import Path

import pytest
from textual.widgets import Input

from tests.builders import a_usual_bin, entry, fed, moment
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, keeper, samples, written_elsewhere
from trayturn.domain.entries import Checked, Entry
from trayturn.domain.units import QUART_L

DAY = 70
EARLIER = (
    entry("checked", 62, tray="B", moisture_pct=74, temperature_c=18, ph=6.5, sump_l=0.2),
    entry("checked", 66, tray="B", moisture_pct=70, temperature_c=17, sump_l=0.3),
)


def checking(
    home: Path, *entries: Entry, size: tuple[int, int] = (80, 24), **setup: str
) -> AbstractAsyncContextManager[Keeper]:
    """The app on a usual bin on day 70, tray B fed on top."""
    a_home(home, (*a_usual_bin(), *EARLIER, *entries), **setup)
    return keeper(home, "pantry", wrist=Wrist(moment(DAY)), size=size)


def last(k: Keeper) -> Checked:
    found = k.standing("pantry")[-1]
    assert isinstance(found, Checked)
    return found


async def test_gloves_alone_write_a_whole_check(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k")
        assert k.screen == "Check"
        k.sees("tray B, feeding", "70 %, 4 days ago", "1 dry  2 damp  3 moist  4 wet", "Space Save")
        await k.press("3", "down", "plus", "plus", "down", "1", "down", "1", "down", "minus", "down", "2")
        await k.press("down", "down", "3", "down", "plus")
        before = len(k.standing("pantry"))
        await k.press("space")
        assert len(k.standing("pantry")) == before + 1
        check = last(k)
        assert (check.tray, check.feel, check.temperature_c, check.ph) == ("B", "moist", 19.0, 6.5)
        assert (check.smell, check.strays, check.worms) == ("earthy", "few", "many")
        assert check.sump_l == pytest.approx(0.2)
        assert check.gross_kg is not None
        k.sees("Check saved. u takes it back", "Saved: moist by the squeeze, 19", "First: Put them back")
        await k.press("u")
        k.sees("Taken back")
        assert len(k.standing("pantry")) == before


async def test_gloves_alone_in_us_units(tmp_path: Path) -> None:
    async with checking(tmp_path, units="us") as k:
        await k.press("k", "down")
        k.sees("63 °F")
        await k.press("plus", "plus", "down", "down", "down", "plus", "space")
        check = last(k)
        assert check.temperature_c == pytest.approx((65 - 32) / 1.8)
        assert check.sump_l == pytest.approx(0.4 * QUART_L)


async def test_the_verdict_stands_beside_the_reading_with_the_amount(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "1")
        k.sees("! too dry", "Too dry: about 50 %", "Add 740 ml to 910 ml of water", "now 50 %", "last 70 %")
        await k.press("3")
        k.sees("fine", "now 80 %")
        k.sees_no("of water")


async def test_at_120_columns_every_verdict_stands_open(tmp_path: Path) -> None:
    async with checking(tmp_path, size=(120, 40)) as k:
        await k.press("k", "1", "down", "down", "down", "3")
        k.sees("Too dry: about 50 % by the squeeze; worms need 60 % at least.")
        k.sees("Rotten: it lacks air, from too much food or too much water.")
        k.sees("Fine: 17 °C.", "Fine: pH 6.5.", "Oregon Metro and RecycleWorks")
        await k.press("home")
        k.sees("1 dry: crumbles  2 damp: holds", "Common practice, no source.", "Edwards", "Kaplan")


async def test_a_weight_below_the_empty_tray_is_refused_beside_its_row(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "end", "up", "enter")
        await k.type("500 g")
        k.sees("x 500 g cannot be", "the empty tray alone", "weighs 900 g.")
        await k.press("enter")
        assert k.app.screen.query_one("#typing").has_focus
        await k.press("escape")
        k.sees("500 g")
        before = k.standing("pantry")
        await k.press("home", "2", "space")
        assert k.standing("pantry") == before
        k.sees("Not saved: mend the row with the x")
        await k.press("0", "space")
        assert last(k).gross_kg is None
        assert last(k).feel == "damp"


async def test_fahrenheit_typed_in_a_metric_bin_is_asked_about_at_once(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "down", "enter")
        await k.type("70")
        k.sees("? 70 °C: no worm lives in that.")
        await k.press("enter")
        k.sees("8 takes 21 °C  9 keeps it")
        await k.press("8")
        k.sees_no("no worm lives")
        await k.press("space")
        assert last(k).temperature_c == pytest.approx((70 - 32) / 1.8)


async def test_what_hardly_can_be_is_kept_when_the_keeper_says_so(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "enter")
        await k.type("5")
        await k.press("enter", "home", "down", "2", "space")
        before = len(k.standing("pantry"))
        k.sees("Space once more saves it as it is")
        await k.press("9")
        k.sees("Too dry: 5 %")
        await k.press("0", "enter")
        await k.type("5")
        await k.press("enter", "space", "space")
        assert len(k.standing("pantry")) == before + 1
        assert last(k).moisture_pct == 5


async def test_odd_units_are_understood(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "down", "enter")
        await k.type("65 F")
        await k.press("enter", "down", "down", "down", "enter")
        await k.type("8 fl oz")
        await k.press("enter", "space")
        assert last(k).temperature_c == pytest.approx((65 - 32) / 1.8)
        assert last(k).sump_l == pytest.approx(0.2366, abs=1e-4)


async def test_what_cannot_be_read_is_said_and_kept(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "down", "down", "enter")
        await k.type("seven")
        k.sees("x 'seven' is not a pH")
        await k.press("tab", "down", "up", "enter")
        assert k.app.screen.query_one("#typing", Input).value == "seven"
        await k.press("ctrl+u", "7", "enter", "space")
        assert last(k).ph == 7


async def test_nothing_read_says_so(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        before = k.standing("pantry")
        await k.press("k", "space")
        k.sees("Nothing is read yet: digits pick a word,")
        assert k.standing("pantry") == before


async def test_v_goes_on_to_the_next_tray_and_keeps_what_was_read(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "2", "v")
        k.sees("tray A, finishing", "not saved: tray B")
        await k.press("3", "space")
        assert (last(k).tray, last(k).feel) == ("A", "moist")
        await k.press("v", "v")
        k.sees("the whole bin", "not saved: tr")
        await k.press("end", "up", "plus", "space")
        k.sees("x A weight is of one tray", "Not saved: mend the row")
        await k.press("0", "v")
        k.sees("tray B, feeding", "damp by the squeeze")
        await k.press("space")
        assert (last(k).tray, last(k).feel) == ("B", "damp")


async def test_leaving_with_something_read_asks_once(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "2", "escape")
        assert k.screen == "Check"
        k.sees("Not saved yet.")
        await k.press("escape")
        assert k.screen == "Stack"
        await k.press("k", "escape")
        assert k.screen == "Stack"


async def test_pests_are_ticked_with_what_each_means(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", *["down"] * 6, "enter")
        assert k.screen == "PestSheet"
        k.sees("White mites", "They do not prey on worms")
        await k.press("space", *["down"] * 7, "space", "space", "space", "enter")
        k.sees("white mites and ants", "! to act on")
        await k.press("enter", "escape", "space")
        assert last(k).pests == ("white mites", "ants")


async def test_a_dried_sample_gives_the_percentage(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "5")
        k.sees("Moisture of a dried sample")
        for weight in ("4 g", "14 g", "6.3 g"):
            await k.type(weight)
            await k.press("enter")
        assert k.screen == "Check"
        k.sees("77 %")
        await k.press("space")
        assert last(k).moisture_pct == pytest.approx(77.0)


async def test_another_window_writes_meanwhile_and_nothing_is_lost(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "2")
        meanwhile = [entry("checked", 69, tray="B", temperature_c=29), fed("B", 69)]
        written_elsewhere(tmp_path, "pantry", meanwhile)
        await k.look()
        k.sees("damp by the squeeze", "29 °C")
        await k.press("space")
        assert [e.kind for e in k.standing("pantry")[-3:]] == ["checked", "fed", "checked"]


async def test_a_vanished_file_is_said_and_the_readings_stay(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "2")
        away = tmp_path / "kept"
        (tmp_path / "pantry.toml").rename(away)
        await k.look()
        await k.press("space")
        k.sees("cannot be read", "nothing here is lost", "damp by the squeeze")
        await k.press("v", "plus", "3", "enter", "u")
        away.rename(tmp_path / "pantry.toml")
        await k.look()
        await k.press("space")
        assert last(k).feel == "damp"


async def test_the_typed_form_is_a_row_away_and_in_the_palette(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        offered = {command.title for command in k.app.get_system_commands(k.app.screen)}
        assert "Typed check" in offered
        await k.press("k", "end", "enter")
        assert k.screen == "Form"
        k.sees("Check Pantry", "Worms seen", "Pests")
        await k.press("tab", "2", "ctrl+s")
        assert k.screen == "Check"
        assert last(k).feel == "damp"


async def test_every_sample_is_checked_without_a_reading_too_many(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), size=(80, 24)) as k:
        for _ in range(5):
            await k.press("enter", "k")
            while "the whole bin" not in k.title:
                await k.press("v")
                for _ in range(9):
                    await k.press("down")
                await k.press("home")
            k.sees("Moisture", "Tray weighs")
            await k.press("escape", "escape", "down")


async def test_the_screen_is_few_widgets_and_its_keys_fit(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k")
        assert k.footer_fits
        assert len(k.app.screen.query("*")) <= 20


async def test_o_leads_to_putting_right_and_back_with_the_readings_kept(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "down", "down", "down", "3", "o")
        assert k.screen == "PutRight"
        await k.press("escape")
        k.sees("rotten", "Rotten: it lacks air")


async def test_h_opens_the_handbook_at_the_marked_reading(tmp_path: Path) -> None:
    async with checking(tmp_path) as k:
        await k.press("k", "down", "2", "h")
        assert k.screen == "Handbook"
        k.sees("Temperature")
        await k.press("escape")
        assert k.screen == "Check"
