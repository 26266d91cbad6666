"""A turn day on its screens: planned, begun, gone through, left and taken up again."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.builders import entry, fed, moment, started, turned
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, heeded, keeper, samples, written_elsewhere
from trayturn.advice.cautions import CAUTIONS
from trayturn.advice.turn_day.tasks import view_day
from trayturn.domain.entries import DayOutcome, DayStep, Entry, Stage
from trayturn.tui.widgets.answers import Answers

DAY = moment(120, 9)
READ = entry("cautions_read", DAY, work="turn", codes=[caution.code for caution in CAUTIONS])
JOURNAL: tuple[Entry, ...] = (
    started("C", 0, stage="feeding"),
    *(fed("C", day) for day in (1, 13, 25)),
    started("B", 20, level=1),
    started("A", 40, level=1),
    turned("ABC", 60, B="feeding", C="finishing", A="bedding"),
    turned("ACB", 61, B="feeding", C="finishing", A="bedding"),
    *(fed("B", day) for day in (62, 74, 86, 98)),
    entry("supplies_counted", 100, supplies_kg={"shredded cardboard": 2.0}),
    READ,
)


def home_of(folder: Path, *more: Entry, **setup: object) -> Path:
    return a_home(folder, (*JOURNAL, *more), "ABCD", tray_count=3, **setup)


def now(k: Keeper) -> tuple[DayStep, str | None]:
    view = view_day(k.stack("pantry"))
    assert view is not None
    assert view.now is not None
    return view.now.step, view.now.tray


async def until(k: Keeper, step: DayStep) -> None:
    for _ in range(40):
        if now(k)[0] is step:
            return
        await k.press("space")
    raise AssertionError(k.picture)


async def test_the_plan_is_changed_and_begun(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t")
        assert k.screen == "Plan"
        k.sees("Now", "After", "3 trays, as usual", "Tray C", "to be separated", "comes in fresh", "Time:")
        await k.press("minus")
        k.sees("2 trays, 1 fewer", "No fresh tray comes in.")
        await k.press("plus", "down", "plus", "plus")
        k.sees("D gets shredded cardboard", "-  600 g  +")
        await k.press("space")
        assert k.screen == "Run"
        day = k.stack("pantry").turn_day
        assert day is not None
        assert (day.plan.order, day.plan.separating, day.plan.fresh) == (("D", "B", "A", "C"), ("C",), "D")
        assert day.plan.bedding_kg == {"shredded cardboard": pytest.approx(0.6)}


async def test_a_turn_arranged_by_hand(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "down", "down", "down")
        k.sees("level 3, feeding")
        await k.press("minus")
        k.sees("arranged by hand", "would stand on the feeding tray")
        await k.press("g")
        k.sees("No tray would be fed")
        await k.press("x")
        k.sees_no("comes in fresh")
        await k.press("x")
        k.sees("comes in fresh")
        await k.press("b")
        k.sees_no("arranged by hand")
        k.sees("3 trays, as usual")


async def test_the_whole_day_can_be_read_first(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY), size=(120, 60)) as k:
        await k.press("t")
        k.sees(" 1 B  1.8 to 3.1 kg stack to place 1 57 to 82 cm  0.3 within", "Tools: gloves", "Cautions: ")
        await k.press("enter")
        assert k.screen == "Reason"
        k.sees(
            "Lifts, one after the other", "1. Tray B, 1.8 kg to 3.1 kg, from the stack to place 1 beside it"
        )
        k.sees("Cautions today", "revised NIOSH equation")


async def test_what_is_not_ready_is_said_with_its_measure(tmp_path: Path) -> None:
    wet = entry("checked", 119, tray="C", moisture_pct=88)
    async with keeper(home_of(tmp_path, wet), "pantry", wrist=Wrist(moment(119, 12))) as k:
        await k.press("t")
        if k.screen == "CautionsSheet":
            await k.heed()
        k.sees("Tray C is 88 % moist; above 80 % castings smear")


async def test_v_marks_the_next_tray_and_one_being_separated_stays(tmp_path: Path) -> None:
    begun = entry("separation_begun", moment(119, 12), tray="C")
    async with keeper(home_of(tmp_path, begun), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "v")
        marked = k.app.screen.query_one(Answers)
        assert marked.answers[marked.marked].key == "tray:C"
        await k.press("minus", "g")
        k.sees("Tray C is being separated")
        k.sees_no("arranged by hand")
        await k.press("v")
        assert marked.answers[marked.marked].key == "tray:A"
        await k.press("v", "v", "v")
        assert marked.answers[marked.marked].key == "tray:C"


async def test_one_fewer_is_suggested_where_bedding_is_short(tmp_path: Path) -> None:
    short = entry("supplies_counted", 119, supplies_kg={"shredded cardboard": 0.1})
    async with keeper(home_of(tmp_path, short), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t")
        k.sees("Suggested is one fewer (-): about 400 g of bedding is lacking.")
        await k.press("minus")
        k.sees("2 trays, 1 fewer, suggested", "Tray D stays out; tray A is fed.")
        await k.press("space")
        day = k.stack("pantry").turn_day
        assert day is not None
        assert (day.plan.no_fresh, day.plan.fresh, day.plan.order) == (True, None, ("B", "A", "C"))


async def test_one_more_brings_another_spare_tray_in(tmp_path: Path) -> None:
    home = a_home(tmp_path, JOURNAL, "ABCDE", tray_count=3)
    async with keeper(home, "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "plus")
        k.sees("4 trays, 1 more", "Spare tray E comes in too, with bedding.", "Tray E")
        await k.press("space")
        day = k.stack("pantry").turn_day
        assert day is not None
        assert day.plan.order == ("E", "D", "B", "A", "C")


async def test_by_hand_the_fresh_tray_goes_out_and_comes_in_again(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "v", "v", "minus", "x")
        k.sees("arranged by hand")
        k.sees_no("comes in fresh", "D gets")
        await k.press("x")
        k.sees("comes in fresh")
        await k.press("x", "e")
        k.sees("Turn saved")
        assert [tray.id for tray in k.stack("pantry").trays] == ["A", "B", "C"]
        assert k.stack("pantry").left_out_at is not None


async def test_a_small_window_says_where_the_rest_of_it_is(tmp_path: Path) -> None:
    cool = entry("checked", 119, tray="C", moisture_pct=88, temperature_c=8)
    async with keeper(home_of(tmp_path, cool, places_beside=1), "pantry", wrist=Wrist(moment(119, 12))) as k:
        await k.press("t")
        if k.screen == "CautionsSheet":
            await k.heed()
        k.sees("Tray C is 88 % moist", "Enter shows the rest")
        await k.press("enter")
        k.sees("worms move slowly below 10 °C", "Lifts, one after the other")


async def test_a_bin_without_trays_says_so(tmp_path: Path) -> None:
    async with keeper(a_home(tmp_path, (READ,)), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t")
        k.sees("There is nothing to turn yet")
        await k.press("space", "e")
        assert k.screen == "Plan"


async def test_a_day_from_looking_to_closing(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "space")
        k.sees("Open the bin and look", "1 Open and look", "Sump water", "Tray A feels")
        await k.press("plus", "plus", "down", "2", "down", "3")
        await k.press("space")
        stack = k.stack("pantry")
        assert (stack.sump.volume_l, now(k)[0]) == (0.1, DayStep.MOVE)
        k.sees("Lift tray B off the stack", "Lift 1 of 6", "lifting index")
        await k.press("space")
        k.sees("Beside it: place 1: B")
        await until(k, DayStep.FEED)
        assert [tray.id for tray in k.stack("pantry").trays] == ["D", "B", "A", "C"]
        assert k.stack("pantry").turns == 3
        await k.press("e")
        assert now(k) == (DayStep.SET_ON_TOP, "C")
        await k.press("space")
        assert now(k) == (DayStep.SEPARATE, "C")
        await k.press("space")
        assert k.screen == "Separation"
        k.sees("Get ready")
        await k.press("escape")
        assert k.screen == "Run"


async def test_feeding_opens_the_meal_and_is_done_by_it(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "space")
        await until(k, DayStep.FEED)
        await k.press("space")
        assert k.screen == "Feed"
        written_elsewhere(tmp_path, "pantry", [fed("A", moment(120, 9, 30))])
        await k.look()
        await k.press("escape")
        assert now(k) == (DayStep.SET_ON_TOP, "C")


async def test_back_goes_one_step_back_and_no_further_than_the_morning(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "space", "space", "space")
        assert now(k)[0] is DayStep.MOVE
        await k.press("b", "b")
        assert now(k)[0] is DayStep.LOOK
        await k.press("b")
        k.sees("The day has only begun. z gives it up.")
        assert k.stack("pantry").turn_day is not None


async def test_a_day_left_and_one_taken_up_again(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "space", "space", "escape")
        assert k.screen == "Stack"
        k.sees("Turn day: Lift tray B off the")
        await k.press("space")
        assert k.screen == "Run"
        await k.press("z")
        assert k.screen == "Stack"
        assert [day.outcome for day in k.stack("pantry").past_turn_days] == [DayOutcome.LEFT]
        await k.press("u", "t")
        assert k.screen == "Run"


async def test_ammonia_is_said_before_anything_else(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "space", "down", "down", "down", "plus", "plus", "plus", "space")
        k.sees("Ammonia: air the room")
        assert now(k)[0] is DayStep.LOOK
        await k.press("space")
        assert now(k)[0] is DayStep.MOVE
        smelled = k.stack("pantry").smelled
        assert smelled is not None
        assert smelled.smell == "ammonia"


async def test_jobs_that_fit_are_named_while_a_rest_runs(tmp_path: Path) -> None:
    day = entry(
        "turn_day_begun",
        DAY,
        order=["D", "B", "A", "C"],
        separating=["C"],
        fresh="D",
        stages={"A": "feeding"},
    )
    rest = (
        entry("separation_begun", moment(120, 10), tray="C"),
        entry(
            "step_started",
            moment(120, 10),
            tray="C",
            step="rest",
            pass_number=1,
            ends_at=moment(120, 10, 15),
        ),
    )
    home = home_of(tmp_path, day, *rest)
    async with keeper(home, "pantry", wrist=Wrist(moment(120, 10, 1)), size=(120, 40)) as k:
        await k.press("t")
        # As long as the day itself has work for hands, no job beside it is named.
        k.sees("Open the bin and look")
        k.sees_no("While it rests:")
        await k.press("e", "e")
        k.sees("While it rests:", "min)")
        await k.wait(minutes=13)
        k.sees_no("Weigh the supplies")
        await k.wait(minutes=5)
        k.sees_no("While it rests:")


async def test_another_window_going_on_is_seen_before_a_key_counts(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "space")
        written_elsewhere(tmp_path, "pantry", [entry("day_step_done", DAY, step="look")])
        await k.press("space")
        k.sees("Something went on elsewhere meanwhile.")
        assert now(k)[0] is DayStep.MOVE


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
@pytest.mark.parametrize("name", ["stairwell", "workshop", "laundry"])
async def test_both_screens_fit_their_window(tmp_path: Path, name: str, size: tuple[int, int]) -> None:
    async with keeper(heeded(tmp_path), name, size=size) as k:
        await k.press("t")
        assert k.footer_fits
        if k.screen == "Plan":
            await k.press("space")
        assert k.footer_fits


async def test_the_last_task_ticks_its_list_and_ends_the_day(tmp_path: Path) -> None:
    async with keeper(home_of(tmp_path), "pantry", wrist=Wrist(DAY)) as k:
        await k.press("t", "space")
        await until(k, DayStep.FEED)
        await k.press("e", "e")
        assert now(k)[0] is DayStep.CLOSE
        await k.press("space", "space", "space", "space", "space")
        k.sees("Done. The stack is turned.", "Left undone: feed A and set on top C.", "Next:")
        assert k.stack("pantry").turn_day is None
        assert k.stack("pantry").tray("C").stage is Stage.FINISHING  # type: ignore[union-attr]
        await k.press("space")
        assert k.screen == "Stack"


async def test_samples_can_be_planned(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "pantry") as k:
        await k.press("t")
        await k.heed()
        assert k.screen == "Plan"
