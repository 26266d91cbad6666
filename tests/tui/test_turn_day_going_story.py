"""A turn day on its screen, gone through by a keeper who is interrupted, changes their mind, or goes back."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from shutil import copyfile

import pytest

from tests.builders import entry, fed, moment, noted, started
from tests.tui.stories import Keeper, Wrist, keeper, written_elsewhere
from tests.tui.test_turn_day_story import DAY, home_of, now, until
from trayturn.advice.turn_day.tasks import view_day
from trayturn.domain.entries import DayStep, Entry, Stage
from trayturn.domain.replay import standing
from trayturn.procedure import separation
from trayturn.tui.widgets.stack_drawing import StackDrawing

OLD = Path(__file__).parents[1] / "data" / "before_turn_days.toml"


def kinds(k: Keeper) -> list[str]:
    return [one.kind for one in k.profile("pantry").journal]


async def to_the_lifts(k: Keeper, lifts: int = 0) -> None:
    """The day begun, the bin looked into, and so many trays lifted."""
    await k.press("t", "space", "space", *["space"] * lifts)
    assert now(k)[0] is DayStep.MOVE


async def test_the_places_beside_the_bin_are_drawn_and_the_next_tray_is_in_hand(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY), size=(120, 40)) as k:
        await to_the_lifts(k)
        k.sees_no("place 2")
        k.sees("in hand")
        await k.press("space", "space", "space")
        k.sees("[B]", "[A]", "[C]", "place 1", "place 2", "Beside it: place 1: B; place 2: C under A.")
        await k.press("space")
        k.sees("▸[B]", "Put tray B on the stack, from place 1 beside it.")


async def test_the_places_are_drawn_with_letters_only(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY), ascii=True) as k:
        await to_the_lifts(k, 4)
        k.sees(">[B]", "> 2 Move trays", "x 1 Open and look")
        assert k.picture.isascii()


async def test_back_leaves_what_was_written_meanwhile(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await to_the_lifts(k, 2)
        written_elsewhere(tmp_path, "pantry", [noted("the phone rang", moment(120, 9, 30))])
        await k.look()
        await k.press("b")
        view = view_day(k.stack("pantry"))
        assert view is not None
        assert view.lifts_done == 1
        assert kinds(k)[-2:] == ["note", "undone"]


async def test_back_does_not_pull_a_tray_from_under_a_meal(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await to_the_lifts(k)
        for _ in range(20):
            if k.stack("pantry").turns == 3:
                break
            await k.press("space")
        written_elsewhere(tmp_path, "pantry", [fed("D", moment(120, 9, 30))])
        await k.look()
        await k.press("b")
        k.sees("Something written down since rests on that.")
        assert k.stack("pantry").turns == 3


async def test_moving_is_left_undone_only_while_no_tray_stands_beside_the_stack(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await to_the_lifts(k, 2)
        await k.press("e")
        k.sees("Trays B and C stand beside the stack", "b goes back")
        assert "back lift by lift" in " ".join(k.reads("#hint").split())
        assert now(k)[0] is DayStep.MOVE
        await k.press("b", "b", "e")
        stack = k.stack("pantry")
        assert ([tray.id for tray in stack.trays], stack.turns) == (["A", "C", "B"], 2)
        await until(k, DayStep.SET_ON_TOP)
        await k.press("e", "e")
        assert "nothing is turned" in k.reads("#to-do")
        assert "Left undone: move trays, set on top C and close up." in k.reads("#reasons")


async def test_a_day_given_up_in_the_middle_of_the_lifts_says_so_too(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await to_the_lifts(k, 2)
        await k.press("z")
        assert k.screen == "Stack"
        k.sees("Put the trays back, from below A, C, B")
        assert k.stack("pantry").turn_day is None


async def test_a_meal_left_out_keeps_its_reason(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await to_the_lifts(k)
        await until(k, DayStep.FEED)
        k.sees("If not, why")
        await k.press("plus", "plus")
        k.sees("food is left in it")
        await k.press("e")
        step = k.profile("pantry").journal[-1]
        assert (step.kind, step.note) == ("day_step_done", "food is left in it")
        await k.press("e", "e")
        assert "Left undone: feed A (food is left in it), set on top C" in k.reads("#reasons")


async def test_a_meal_by_a_clock_set_back_still_counts_for_the_day(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await to_the_lifts(k)
        await until(k, DayStep.FEED)
        k.wrist.now -= timedelta(hours=12)
        await k.press("space")
        await k.press("plus", "space")
        assert k.screen == "Run"
        assert now(k) == (DayStep.SET_ON_TOP, "C")


async def test_back_out_of_a_separation_takes_back_its_last_move(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await to_the_lifts(k)
        await until(k, DayStep.FEED)
        await k.press("e", "space")
        assert now(k) == (DayStep.SEPARATE, "C")
        await k.press("b")
        assert now(k) == (DayStep.SET_ON_TOP, "C")
        assert k.stack("pantry").separations == ()
        await k.press("b")
        assert now(k)[0] is DayStep.FEED


def two_resting() -> list[Entry]:
    """A day with two trays on top: A rests until ten past, C until a quarter past."""
    day = entry(
        "turn_day_begun",
        DAY,
        order=["B", "A", "C"],
        separating=["A", "C"],
        stages={"A": "finishing", "B": "feeding", "C": "finishing"},
    )
    rests = []
    for tray, minute in (("A", 10), ("C", 15)):
        at = moment(120, 10)
        rests += [
            entry("separation_begun", at, tray=tray),
            entry(
                "step_started",
                at,
                tray=tray,
                step="rest",
                pass_number=1,
                ends_at=moment(120, 10, minute),
            ),
        ]
    steps = [entry("day_step_done", DAY, step="look"), entry("day_step_done", DAY, step="move", skipped=True)]
    loosened = entry("day_step_done", DAY, step="loosen", tray="B")
    return [day, *steps, loosened, *rests]


@pytest.mark.parametrize(("minute", "tray"), [(1, "A"), (12, "A"), (16, "A")])
async def test_space_goes_to_the_separation_that_needs_hands_next(
    tmp_path: Path, minute: int, tray: str
) -> None:
    home = home_of(tmp_path, *two_resting())
    async with keeper(home, "pantry", wrist=Wrist(moment(120, 10, minute))) as k:
        await k.press("t", "space")
        assert k.screen == "Separation"
        k.sees(f"tray {tray}")


async def test_one_that_waits_for_hands_comes_before_one_that_rests(tmp_path: Path) -> None:
    skims = entry("step_started", moment(120, 10, 2), tray="C", step="skim", pass_number=1)
    home = home_of(tmp_path, *two_resting(), skims)
    async with keeper(home, "pantry", wrist=Wrist(moment(120, 10, 3))) as k:
        await k.press("t")
        k.sees_no("While it rests:")
        await k.press("space")
        k.sees("tray C")


async def test_a_rest_on_the_separations_own_screen_names_what_fits(tmp_path: Path) -> None:
    home = home_of(tmp_path, *two_resting())
    async with keeper(home, "pantry", wrist=Wrist(moment(120, 10, 1)), size=(120, 40)) as k:
        await k.press("t", "space")
        k.sees("While it rests:", "min)")
        assert k.footer_fits


async def test_what_to_do_now_follows_the_rests(tmp_path: Path) -> None:
    home = home_of(tmp_path, *two_resting())
    async with keeper(home, "pantry", wrist=Wrist(moment(120, 10, 1))) as k:
        k.sees("Turn day: Tray A: resting")
        await k.press("t")
        k.sees("Tray A: resting until 10:10, then skim.", "Tray C: rest 14:00 left")
        await k.wait(minutes=10)
        k.sees("Tray A: skim now; the rest is over.")


async def test_an_old_profile_is_looked_at_without_a_byte_being_changed(tmp_path: Path) -> None:
    copyfile(OLD, tmp_path / "cellar.toml")
    async with keeper(tmp_path, "cellar", wrist=Wrist(moment(150))) as k:
        assert k.screen == "Stack"
        for key in ("j", "escape", "d", "escape", "l", "escape", "p", "escape"):
            await k.press(key)
        assert (tmp_path / "cellar.toml").read_bytes() == OLD.read_bytes()
        assert k.stack("cellar").in_stage(Stage.FEEDING)


async def test_what_is_to_be_separated_stands_beside_until_it_is_set_on_top(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await to_the_lifts(k)
        await until(k, DayStep.LOOSEN)
        k.sees("Beside it: place", "[C]")
        drawing = k.app.screen.query_one(StackDrawing).picture
        assert "C" not in [tray.id for tray in drawing.trays]
        await until(k, DayStep.FEED)
        await k.press("e")
        assert now(k)[0] is DayStep.SET_ON_TOP
        assert "lifting index" in k.reads("#reasons")
        await k.press("space")
        drawing = k.app.screen.query_one(StackDrawing).picture
        assert drawing.trays[-1].id == "C"
        assert "Beside it" not in k.picture


async def test_the_tray_that_was_separated_comes_back_fresh(tmp_path: Path) -> None:
    """No spare tray is there: the one that is emptied is filled with bedding and goes in below the others."""
    spare = entry("turned", 112, order=("D", "A", "C", "B"), stages={"C": "finishing", "B": "feeding"})
    home = home_of(tmp_path, started("D", 112), spare)
    async with keeper(home, "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t")
        k.sees("comes back")
        await k.press("space")
        await until(k, DayStep.FEED)
        await k.press("e", "space")
        running = k.stack("pantry").separations[0]
        ended = separation.finish(running, k.wrist.now + timedelta(hours=1))
        k.wrist.forward(hours=2)
        written_elsewhere(tmp_path, "pantry", ended)
        await k.look()
        assert now(k)[0] is DayStep.BRING
        k.sees("Bring back", "Tray C comes back with fresh bedding, below the")
        assert "e: it does not come back today" in " ".join(k.reads("#hint").split())
        before = [tray.id for tray in k.stack("pantry").trays]
        await k.press("space", "e")
        k.sees("stands beside the stack")
        while now(k)[0] is DayStep.BRING:
            await k.press("space")
        stack = k.stack("pantry")
        assert [tray.id for tray in stack.trays] == ["C", *before]
        assert stack.trays[0].stage is Stage.BEDDING
        await k.press("b")
        assert [tray.id for tray in k.stack("pantry").trays] == before


async def test_going_back_to_the_look_finds_what_was_answered(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "space", "plus", "down", "2", "down", "3", "down", "plus", "space")
        before = [one for one in k.profile("pantry").journal if one.kind == "checked" and one.at == DAY]
        await k.press("b")
        assert now(k)[0] is DayStep.LOOK
        k.sees("few", "moist", "like earth")
        await k.press("space")
        after = [one for _, one in standing(k.profile("pantry").journal) if one.kind == "checked"]
        assert after[-len(before) :] == before
        assert len(before) == 2
