"""A separation from the first caution to the summary, by keyboard, with everything that comes between."""

from contextlib import AbstractAsyncContextManager
from datetime import timedelta
from pathlib import Path

import pytest

from tests.builders import a_usual_bin, moment
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, keeper, samples, written_elsewhere
from trayturn.domain.entries import Amount, CautionsRead, Entry, Outcome, Step
from trayturn.procedure import separation as moves


def a_keeper(home: Path, **setup: str) -> AbstractAsyncContextManager[Keeper]:
    """A keeper of the usual bin on day 120, when tray A has finished."""
    return keeper(a_home(home, a_usual_bin(), **setup), "pantry", wrist=Wrist(moment(120)))


async def ready(k: Keeper) -> None:
    """Begin with tray A, and tick every caution."""
    await k.press("s", "space")
    await k.press(*["space"] * k.picture.count("[ ]"))


async def skimming(k: Keeper) -> None:
    """As far as the first skim."""
    await ready(k)
    await k.press("space", "space", "e")


async def test_the_whole_walk(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("s")
        k.sees("Before you begin", "Separate tray A from its worms?", "Space begins. Esc leaves.")
        await k.press("space")
        k.sees("Step 1 of 7", "At hand: gloves", "Tray weighs", "not weighed")
        await k.press("1", "1")
        assert "[✓]" not in k.picture
        cautions = k.picture.count("[ ]")
        await k.press(*["space"] * cautions, "enter")
        await k.type("6.5 kg")
        await k.press("enter")
        k.sees("-  6.5 kg  +")
        await k.press("space")
        k.sees("Step 2 of 7, pass 1")
        assert k.reads("#time-words") == "Loosening ends 10:03, then rest."
        await k.press("+", "+", "-")
        assert k.step("pantry").ends_at == moment(120, 10, 4) + timedelta(seconds=30)
        await k.wait(minutes=4)
        await k.press("space")
        k.sees("Step 3 of 7, pass 1", "Rest ends 10:19, then skim.")
        await k.press("+", "space")
        k.sees("Rest ends 10:24, then skim. Press e to")
        await k.press("-")
        await k.wait(minutes=16)
        assert k.reads("#time-words") == "Rest ended 10:19, 1 min ago; now skim."
        await k.press("space", "space")
        k.sees("Step 4 of 7, pass 1")
        assert k.reads("#hint") == "How many worms came off with it? Press 1, 2 or 3."
        await k.press("2", "down", "+", "+", "space")
        k.sees("Step 5 of 7, pass 1", "Few worms came off", "Advice: one more pass.", "[1 one more pass]")
        await k.press("space", "space", "e", "3", "space")
        k.sees("Step 5 of 7, pass 2", "Many worms", "Advice: stop here.", "[2 stop here]", "2 passes")
        await k.press("space")
        k.sees("Step 6 of 7", "Castings", "tray B")
        await k.press("+", "down", "down", "right", "space")
        k.sees("Step 7 of 7", "wash your hands")
        await k.press("space")
        k.sees(
            "Summary", "Done. Tray A is empty and spare.", "2 passes in 20 min", "Castings: 100 g, weighed."
        )
        k.sees("Worms went to: tray C.", "The rest went to: tray B.", "Next: ")
        await k.press("space")
        assert k.screen == "Stack"
        done = k.stack("pantry").past_separations[-1]
        assert (done.gross_kg, done.outcome, len(done.passes)) == (6.5, Outcome.FINISHED, 2)
        assert (done.passes[0].worms_seen, done.passes[0].skimmed_kg) == (Amount.FEW, 0.2)
        read = [e for e in k.standing("pantry") if isinstance(e, CautionsRead)]
        assert [len(e.codes) for e in read] == [cautions]
        assert k.stack("pantry").findings == ()


async def test_b_leads_back_from_every_step_to_the_one_before(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await ready(k)
        forward = (("space",), ("space",), ("e",), ("2", "space"), ("2", "space"), ("space", "space"))
        for number, keys in enumerate(forward, 1):
            before = k.standing("pantry")
            k.sees(f"Step {number} of 7")
            await k.press(*keys)
            k.sees(f"Step {number + 1} of 7")
            await k.press("b")
            k.sees(f"Step {number} of 7")
            assert k.standing("pantry") == before
            await k.press(*keys)
        for number in range(6, 0, -1):
            await k.press("b")
            k.sees(f"Step {number} of 7")
        await k.press("b")
        k.sees("Before you begin")
        assert k.standing("pantry") == list(a_usual_bin())


async def test_u_on_the_summary_opens_the_last_step_again(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await skimming(k)
        await k.press("1", "space", "2", *["space"] * 4)
        k.sees("Summary")
        await k.press("u")
        k.sees("Step 7 of 7")


async def test_escape_keeps_the_place_and_s_comes_back_to_it(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await skimming(k)
        await k.press("escape")
        assert k.screen == "Stack"
        k.sees("Tray A waits: skim.")
        await k.press("s")
        k.sees("Step 4 of 7, pass 1")
    async with keeper(tmp_path, "pantry", wrist=Wrist(moment(120, 12))) as k:
        await k.press("space")
        k.sees("Step 4 of 7, pass 1")


async def test_z_puts_the_tray_back_and_u_brings_the_step_back(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await skimming(k)
        await k.press("z")
        assert k.screen == "Stack"
        k.sees("Tray A is back at its level.", "A  finishing")
        assert k.stack("pantry").past_separations[-1].outcome is Outcome.PUT_BACK
        await k.press("u", "s")
        k.sees("Step 4 of 7, pass 1")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("5000 kg", "It must be at most 1000 kg."),
        ("heavy", "'heavy'"),
        ("-2 kg", "-2"),
        ("[/", "'[/'"),
    ],
)
async def test_a_weight_that_will_not_do_is_said_under_the_line(
    tmp_path: Path, typed: str, said: str
) -> None:
    async with a_keeper(tmp_path) as k:
        await k.press("s", "space", "end", "enter")
        await k.type(typed)
        await k.press("enter")
        assert k.screen == "TypeIn"
        k.sees(said)


async def test_a_weight_is_typed_in_the_keepers_units_and_stops_at_the_heaviest(tmp_path: Path) -> None:
    async with a_keeper(tmp_path, units="us") as k:
        await k.press("s", "space", "end", "enter")
        k.sees("such as 10 lb")
        await k.type("12 lb")
        await k.press("enter")
        k.sees("-  12 lb  +")
        await k.press("enter")
        await k.type("2204 lb")
        await k.press("enter", "+", "+")
        await k.press(*["space"] * k.picture.count("[ ]"), "space")
        k.sees("Step 2 of 7")
        assert k.separation("pantry").gross_kg == 1000


async def test_long_words_are_kept_whole_or_refused_with_a_sentence(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await skimming(k)
        await k.press("1", "end", "enter")
        await k.type("x" * 20_001)
        await k.press("enter")
        k.sees("That is too long; the most is 20000 characters.")
        await k.press("backspace", "enter", "space")
        k.sees("Step 5 of 7")
        assert k.separation("pantry").passes[0].note == "x" * 20_000


def elsewhere(k: Keeper, entries: list[Entry]) -> None:
    written_elsewhere(k.app.shelf.home, "pantry", entries)


async def test_another_window_going_on_is_followed(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await skimming(k)
        skim = moves.Skim(Amount.NONE, 1.0)
        elsewhere(k, moves.skimmed(k.separation("pantry"), skim, k.wrist.now))
        await k.look()
        k.sees("Step 5 of 7", "1 pass done")


@pytest.mark.parametrize("key", ["space", "b", "z", "e"])
async def test_a_key_meant_for_a_step_that_another_window_ended_does_nothing(
    tmp_path: Path, key: str
) -> None:
    async with a_keeper(tmp_path) as k:
        await ready(k)
        await k.press("space")
        elsewhere(k, moves.loosened(k.separation("pantry"), k.stack("pantry").setup, k.wrist.now))
        there = k.standing("pantry")
        await k.press(key)
        k.sees("Step 3 of 7", "Another window went on meanwhile.")
        assert k.standing("pantry") == there
        await k.press("e")
        k.sees("Step 4 of 7")
        assert k.stack("pantry").findings == ()


async def test_another_windows_end_shows_the_summary(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await skimming(k)
        elsewhere(k, moves.put_back(k.separation("pantry"), k.wrist.now))
        await k.look()
        k.sees("Summary", "Tray A is back at its level.")
        await k.press("space")
        assert k.screen == "Stack"


async def test_a_note_written_elsewhere_wipes_no_answer(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await skimming(k)
        await k.press("2", "down", "+")
        samples(k.app.shelf.home, "laundry")
        await k.look()
        k.sees("[2 few]", "-  100 g  +")
        assert k.step("pantry").step is Step.SKIM
