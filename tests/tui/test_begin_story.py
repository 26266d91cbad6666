"""A new bin from nothing: from an empty home to the first meal and the looks of the first weeks."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.builders import entry, fed, moment, started
from tests.tui.house import a_home
from tests.tui.stories import SCENARIO, Keeper, Wrist, keeper
from trayturn.domain.entries import Done
from trayturn.domain.setup import Units
from trayturn.storage.managing import archive
from trayturn.storage.reading import load

NEW = (started("A", 0, stage="feeding"), entry("worms_added", 0, worms_kg=0.3), fed("A", 0.1))


async def made(k: Keeper, units: Units) -> Keeper:
    """A new bin from an empty home, in those units."""
    await k.press("space")
    await k.type("Pantry")
    await k.press("tab", "2" if units is Units.US else "1", "ctrl+s")
    assert k.screen == "Stack"
    return k


AMOUNTS = {
    Units.METRIC: ("480 g", "1.4 kg", "260 g", "15 cm", "160 g to 390 g at first"),
    Units.US: ("1.1 lb", "3.3 lb", "9 oz", "5.91 in", "5.4 oz to 14 oz at first"),
}


@pytest.mark.parametrize("units", Units)
async def test_from_an_empty_home_to_the_first_meal_by_space(tmp_path: Path, units: Units) -> None:
    dry, water, worms, depth, meal = AMOUNTS[units]
    async with keeper(tmp_path / "home") as k:
        await made(k, units)
        k.sees("Start the first")
        await k.press("space")
        assert k.screen == "Begin"
        k.sees(
            "Starting Pantry", f"About {dry} of dry shreds in {water} of water", f"its rim ({depth})", meal
        )
        k.sees("Soak the bedding and fill the first tray. Space writes it down.", "next  Soak the bedding")
        await k.press("space")
        await k.heed()
        k.sees("Put a tray on", f"shredded cardboard={dry}", water)
        await k.press("ctrl+s")
        assert k.screen == "Begin"
        k.sees("done  Soak the bedding", "done  Fill the first tray", "next  Put the worms in")
        await k.press("space")
        k.sees("Worms of Pantry", worms)
        await k.press("ctrl+s")
        k.sees("done  Put the worms in", "next  Small first meals")
        await k.press("space")
        await k.heed()
        await k.press("a")
        await k.type("apple peel 150 g")
        await k.press("enter", "escape", "space")
        k.sees("done  Small first meals", "It is begun.")
        await k.press("space")
        assert k.screen == "Stack"
        kinds = [one.kind for one in k.standing("pantry") if one.kind != "cautions_read"]
        assert kinds == ["tray_started", "worms_added", "fed"]
        k.sees("Tomorrow: lift")
        stack = k.stack("pantry")
        assert stack.worms_kg == pytest.approx(0.26, abs=0.006)
        assert stack.trays[0].water_kg == pytest.approx(1.44, abs=0.06)


async def test_leaving_in_the_middle_loses_nothing_and_each_step_goes_back(tmp_path: Path) -> None:
    async with keeper(tmp_path / "home") as k:
        await made(k, Units.METRIC)
        await k.press("space", "space", "escape")
        assert k.screen == "Begin"
        await k.press("space")
        await k.heed()
        await k.press("ctrl+s", "u")
        k.sees("next  Soak the bedding")
        assert not k.stack("pantry").trays
        await k.press("space", "ctrl+s", "escape", "escape", "enter")
        assert k.screen == "Stack"
        k.sees("Put the worms in.")
        await k.press("space")
        k.sees("Worms of Pantry", "260 g")


async def test_every_figure_has_its_reason_behind_enter(tmp_path: Path) -> None:
    async with keeper(tmp_path / "home") as k:
        await made(k, Units.METRIC)
        await k.press("space")
        for words in ("Solomon", "Sherman", "Ndegwa", "shares are our", "Oxnard", "Darwin", "days are our"):
            await k.press("enter")
            assert words in k.reads("#reason")
            k.sees("h opens the handbook at it")
            await k.press("escape", "down")


async def test_the_reasons_stand_open_beside_the_plan_where_there_is_room(tmp_path: Path) -> None:
    async with keeper(tmp_path / "home", size=(120, 40)) as k:
        await made(k, Units.METRIC)
        await k.press("space", "down", "down")
        k.sees("1.6 kg a square metre was the best of the")
        assert "Ndegwa" in k.reads("#why")
        await k.resize(80, 24)
        k.sees_no("was the best of the")


async def test_the_palette_leads_to_the_plan_of_any_bin(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, NEW), "pantry", wrist=Wrist(moment(2))) as k:
        offered = {command.title for command in k.app.get_system_commands(k.app.screen)}
        assert {"Starting", "Split"} <= offered
        await k.app.screen.run_action("begin")
        await k.pause()
        assert k.screen == "Begin"
        k.sees("The 300 g", "It is begun.")


async def test_a_bin_whose_file_goes_says_so_and_comes_back(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path), "pantry", wrist=Wrist(moment(0))) as k:
        await k.press("space")
        away = archive(load(tmp_path / "pantry.toml"), tmp_path)
        await k.look()
        k.sees("Put its file back")
        await k.press("space", "u", "enter")
        assert k.screen == "Begin"
        away.rename(tmp_path / "pantry.toml")
        await k.look()
        k.sees("next  Soak the bedding")


async def test_a_look_is_opened_and_marked_done_by_space(tmp_path: Path) -> None:
    wrist = Wrist(moment(1.1))
    async with keeper(a_home(tmp_path, NEW), "pantry", wrist=wrist) as k:
        k.sees("Lift the lid")
        await k.press("space")
        assert k.screen == "Watch"
        k.sees("climb the walls", "Space: looked, and all is well")
        await k.press("escape")
        assert not [one for one in k.standing("pantry") if isinstance(one, Done)]
        await k.press("space", "space")
        assert k.screen == "Stack"
        assert k.standing("pantry")[-1] == Done(at=wrist.now, item="watch:day-1")
        k.sees("Looked. u takes it back", "In 2 days: see")
        await k.press("u")
        k.sees("Lift the lid")


async def test_readings_written_from_a_look_are_the_look(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, NEW), "pantry", wrist=Wrist(moment(1.1))) as k:
        await k.press("space", "k", "tab", "2", "ctrl+s")
        assert k.standing("pantry")[-1].kind == "checked"
        k.sees_no("Lift the lid")
        k.sees("In 2 days: see")


async def test_every_key_of_the_plan_fits_at_80_columns(tmp_path: Path) -> None:
    async with keeper(tmp_path / "home", wrist=Wrist(SCENARIO)) as k:
        await made(k, Units.METRIC)
        await k.press("space")
        assert k.footer_fits
        assert len(k.app.screen.query("*")) <= 60
        await k.press("question_mark")
        k.sees("Open what is marked")
