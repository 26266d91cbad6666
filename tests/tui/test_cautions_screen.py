"""The cautions screen: what to do in sight, reason and source one key away."""

from collections.abc import Sequence
from pathlib import Path

import pytest
from textual.screen import Screen

from tests.builders import a_usual_bin, entry, moment, started
from tests.tui.house import SIZES, a_home, drawn, footer_fits, opened, shown
from tests.tui.separating import a_keeper
from tests.tui.stories import Wrist, keeper
from trayturn.advice.cautions import CAUTIONS, WORKS, cautions_for
from trayturn.domain.entries import Entry
from trayturn.tui.screens.cautions.screen import CautionsScreen
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen


@pytest.mark.parametrize("size", SIZES)
async def test_every_caution_is_listed_with_what_to_do(tmp_path: Path, size: tuple[int, int]) -> None:
    async with opened(tmp_path, CautionsScreen(), size) as (app, _):
        assert len(app.screen.query_one(LineList).rows) == len(CAUTIONS)
        assert CAUTIONS[0].title in drawn(app)
        assert CAUTIONS[0].to_do[:40] in drawn(app)
        assert "[ ]" not in drawn(app)
        assert footer_fits(app)


async def test_what_to_do_fits_under_the_list(tmp_path: Path) -> None:
    async with opened(tmp_path, CautionsScreen()) as (app, pilot):
        for place, caution in enumerate(CAUTIONS):
            app.screen.query_one(LineList).marked = place
            await pilot.pause()
            under = " ".join(line.strip() for line in drawn(app).splitlines()[-4:-2])
            assert caution.to_do in under


async def test_enter_tells_the_reason_and_the_source(tmp_path: Path) -> None:
    async with opened(tmp_path, CautionsScreen()) as (app, pilot):
        await pilot.press("down", "enter")
        assert isinstance(app.screen, ReasonScreen)
        assert app.screen.sheet_title == CAUTIONS[1].title
        assert CAUTIONS[1].why in app.screen.lines
        assert f"Source: {CAUTIONS[1].source}" in app.screen.lines
        await pilot.press("escape", "escape")
        assert not isinstance(app.screen, CautionsScreen)


async def test_a_wide_window_has_reason_and_source_beside(tmp_path: Path) -> None:
    async with opened(tmp_path, CautionsScreen(), SIZES[1]) as (app, pilot):
        await pilot.press("down")
        await pilot.pause()
        assert CAUTIONS[1].why in shown(app, "#caution")
        assert "Source:" in drawn(app)


async def test_the_cautions_of_one_work_stand_alone(tmp_path: Path) -> None:
    async with opened(tmp_path, Screen()) as (app, pilot):
        for work in WORKS:
            await app.push_screen(CautionsScreen(work=work))
            await pilot.pause()
            keys = [row.key for row in app.screen.query_one(LineList).rows]
            assert keys == [caution.code for caution in cautions_for(work)]


async def test_those_read_for_the_bin_are_ticked_with_the_day(tmp_path: Path) -> None:
    read = entry("cautions_read", 63, work="separation", codes=("dust",))
    home = a_home(tmp_path, (*a_usual_bin(), read))
    async with opened(home, CautionsScreen("pantry")) as (app, _):
        ticked = [line for line in drawn(app).splitlines() if "[x]" in line]
        assert len(ticked) == 1
        assert "read Sun 3 May" in ticked[0]
        assert "[ ]" in drawn(app)


async def test_after_the_last_tick_the_keys_say_that_space_goes_on(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, a_usual_bin()), "pantry", wrist=Wrist(moment(70))) as k:
        await k.press("f")
        assert k.screen == "CautionsSheet"
        k.sees("Space ticks")
        while "[ ]" in k.picture:
            k.sees_no("Space goes on")
            await k.press("space")
        k.sees("All ticked: Space goes on")
        k.sees_no("Space ticks")
        await k.press("1")
        k.sees("Space ticks")
        await k.press("space", "space")
        assert k.screen == "Feed"


@pytest.mark.parametrize(
    ("journal", "said"),
    [
        ((started("A", 0, stage="feeding"),), "Before you feed this bin for the first time"),
        (a_usual_bin(), "Before you feed this bin: its cautions were not read here yet"),
        (
            (*a_usual_bin(), entry("cautions_read", 63, work="turn", codes=("gloves", "cuts", "hands"))),
            "Before you feed this bin: its cautions were not read here yet",
        ),
        (
            (*a_usual_bin(), entry("cautions_read", 63, work="feeding", codes=("gloves", "pests"))),
            "Before you feed this bin: the cautions have changed since they were read",
        ),
    ],
)
async def test_the_sheet_is_headed_by_what_is_true(
    tmp_path: Path, journal: Sequence[Entry], said: str
) -> None:
    async with keeper(a_home(tmp_path, journal), "pantry", wrist=Wrist(moment(70))) as k:
        await k.press("f")
        assert k.screen == "CautionsSheet"
        k.sees(said)


async def test_a_caution_before_separating_tells_why_on_enter(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("s", "space")
        first = cautions_for("separation")[0]
        assert "Space ticks line by line. Enter tells why." in k.reads("#hint")
        await k.press("enter")
        assert k.screen == "Reason"
        assert first.why in k.reads("#reason")
        await k.press("escape", *["space"] * len(cautions_for("separation")))
        assert "All ticked: Space starts the loosening." in k.reads("#hint")
