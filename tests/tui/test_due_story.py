"""The due list: everything in one order, done, put off and taken back with one key; and which bin is next."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.builders import a_bin, a_usual_bin, entry, fed, moment, stack_of, started
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, keeper, samples
from trayturn.advice.due import KINDS, due_list
from trayturn.advice.due.item import DONE_BY_WORD
from trayturn.domain.entries import Done, Entry, Snoozed
from trayturn.domain.setup import Tray
from trayturn.storage import managing
from trayturn.tui.screens.due.rows import due_rows, name_width
from trayturn.tui.screens.stack.acts import ACTS

LOOKED = entry("checked", 72, feel="moist")
WET = entry("follow_up_set", 70, code="too-wet", what="See whether it dried", due=moment(74), tray="B")


def at(day: float) -> Wrist:
    return Wrist(moment(day, 18))


def two_bins(home: Path, attic: tuple[Entry, ...] = ()) -> Path:
    """The usual bin, and an attic whose tray A was fed on day 60, every 5 days."""
    a_home(home, (*a_usual_bin(), LOOKED))
    begun = (started("A", 50, stage="feeding"), fed("A", 60), entry("checked", 73, tray="A", feel="damp"))
    setup = a_bin(name="Attic", days_between_feedings=5, days_between_turns=300)
    managing.create(home, setup, [Tray(id="A")], (*begun, *attic), "attic")
    return home


def rows(k: Keeper) -> list[str]:
    """The lines of the due list that are in sight."""
    lines = k.picture.splitlines()
    end = next(place for place, line in enumerate(lines) if "Which bin next" in line or "Feeding   " in line)
    return [line.strip(" ▌▁█").strip() for line in lines[3:end] if line.strip()]


async def test_all_bins_stand_in_one_order_with_day_and_bin(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), wrist=at(75)) as k:
        await k.press("d")
        assert k.screen == "Due"
        k.sees("Due in all bins  ·  2 to do now")
        assert [" ".join(row.split()) for row in rows(k)[:3]] == [
            "! 10 days ago Attic Feed tray A now.",
            "! 2 days ago Pantry Feed tray B now.",
            "in 4 days Pantry Check the bin in 4 days.",
        ]
        assert k.footer_fits
        await k.press("escape")
        assert k.screen == "Bins"


async def test_which_bin_is_next_and_which_rests_until_when(tmp_path: Path) -> None:
    cold = entry("checked", 74, temperature_c=2)
    async with keeper(two_bins(tmp_path, (cold,)), wrist=at(75)) as k:
        await k.press("d")
        k.sees("1   Pantry  Feed tray B now (fed 14 days ago, every 12 days).")
        k.sees("-   Attic   Rests until it is warmer (2 °C yesterday).")
        k.sees("waits       Attic   Feed tray A once it is warmer.")
        await k.press("tab", "down", "enter")
        assert k.screen == "Reason"
        k.sees("The bin was at 2 °C yesterday.", "Table 18.3", "First there: Check the bin in")
        await k.press("escape", "escape")
        k.sees("Rests until it is warmer.")


async def test_space_does_what_is_marked_in_its_own_bin(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), wrist=at(75)) as k:
        await k.press("d", "down", "space")
        await k.heed()
        await k.press("a")
        await k.type("cabbage 300 g")
        await k.press("enter", "escape", "space")
        assert k.screen == "Due"
        k.sees("Feeding saved. u takes it back", "1 to do now", "in 12 days  Pantry  Feed tray B in 12 days.")
        assert k.standing("pantry")[-1].kind == "fed"
        await k.press("u")
        k.sees("Taken back: ", "2 to do now")


async def test_in_the_ranking_space_feeds_that_bin(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), wrist=at(75)) as k:
        await k.press("d", "tab", "space")
        await k.heed()
        k.sees("Attic", "Meal for tray A")


async def test_plus_puts_off_day_by_day_minus_takes_back_and_the_mark_goes_along(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), wrist=at(75)) as k:
        await k.press("d", "down", "plus")
        k.sees("Put off until tomorrow. u takes it back", "1 to do now", "Feed tray B tomorrow.  put off")
        await k.press("plus", "plus")
        k.sees("Put off until Mon 18 May", "in 3 days   Pantry  Feed tray B in 3 days.  put off")
        written = [one.until for one in k.standing("pantry") if isinstance(one, Snoozed)]
        assert written == [moment(76, 0), moment(77, 0), moment(78, 0)]
        await k.press("enter")
        k.sees("Put off until Mon 18 May, in 3 days; it was due on Wed 13 May, 2 days ago.")
        await k.press("escape", "minus", "minus")
        k.sees("Feed tray B tomorrow.  put off")
        await k.press("minus")
        k.sees("No longer put off. u takes it back", "2 to do now")
        k.sees_no("  put off")
        await k.press("minus")
        assert len([one for one in k.standing("pantry") if isinstance(one, Snoozed)]) == 6
        await k.press("u")
        k.sees("Taken back: due thing put off", "Feed tray B tomorrow.  put off")


async def test_what_is_put_off_is_so_on_every_screen_and_comes_back(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=at(75)) as k:
        k.sees("! Feed tray B now.")
        await k.press("d", "plus", "escape")
        k.sees("Feed tray B tomorrow.")
        k.sees_no("! Feed")
        await k.press("escape")
        k.sees("Rests until tomorrow.")
        k.wrist.forward(days=1)
        await k.look()
        await k.press("end", "enter")
        k.sees("! Feed tray B now.")


@pytest.mark.parametrize("key", ["e", "space"])
async def test_what_has_an_act_of_its_own_opens_it(tmp_path: Path, key: str) -> None:
    async with keeper(a_home(tmp_path, a_usual_bin()), "pantry", wrist=at(70)) as k:
        await k.press("d", key)
        assert (k.screen, k.standing("pantry")) == ("Check", list(a_usual_bin()))
        k.sees("Pantry  check")


async def test_e_marks_a_follow_up_done_and_space_opens_its_check(tmp_path: Path) -> None:
    soaked = entry("checked", 70, tray="B", moisture_pct=95)
    async with keeper(a_home(tmp_path, (*a_usual_bin(), soaked, WET)), "pantry", wrist=at(75)) as k:
        await k.press("d")
        k.sees("! yesterday   Tray B: See whether it dried.", "Feed tray B once it is looked at again.")
        await k.press("space")
        k.sees("Pantry  check", "tray B, feeding")
        await k.press("escape", "e")
        k.sees("Done. u takes it back", "! 2 days ago  Feed tray B now.")
        k.sees_no("See whether it dried")
        (done,) = [one for one in k.standing("pantry") if isinstance(one, Done)]
        assert done.item == "follow_up:too-wet:B"
        await k.press("u")
        k.sees("See whether it dried", "Taken back: due thing marked done")


def hatching(day: float = 50) -> list[Any]:
    """Tray A, separated on that day."""
    begun = [entry("separation_begun", day, tray="A"), entry("settled", day, tray="A", castings_kg=2)]
    return [*begun, entry("separation_ended", day, tray="A")]


async def test_a_hatch_tub_is_seen_to_on_its_day_and_tells_why_before(tmp_path: Path) -> None:
    home = a_home(tmp_path, (*a_usual_bin(), LOOKED, *hatching(62), fed("B", 72)))
    async with keeper(home, "pantry", wrist=at(75)) as k:
        await k.press("d")
        place = next(n for n, row in enumerate(rows(k)) if "Lay a bait" in row)
        await k.press(*["down"] * place, "space")
        assert k.screen == "Reason"
        k.sees("half of those that hatch have done so", "common practice, no source")
        await k.press("escape")
        assert not [one for one in k.standing("pantry") if isinstance(one, Done)]
        k.wrist.forward(days=11)
        await k.look()
        await k.press("home")
        k.sees("! yesterday   Lay a bait in the hatch tub of tray A now.")
        place = next(n for n, row in enumerate(rows(k)) if "Lay a bait" in row)
        await k.press(*["down"] * place, "space")
        assert k.screen == "Castings"
        k.sees("no lot yet", "Space takes them up")
        await k.press("escape")
        assert not [one for one in k.standing("pantry") if isinstance(one, Done)]
        await k.press("e")
        k.sees("Done. u takes it back")
        k.sees_no("Lay a bait")
        assert isinstance(k.standing("pantry")[-1], Done)


async def test_the_worms_of_a_separation_are_not_put_off(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "workshop") as k:
        before = k.standing("workshop")
        await k.press("d", "plus", "minus")
        assert k.standing("workshop") == before
        await k.press("e")
        k.sees("Step 3 of 7")


async def test_d_shows_one_bin_or_all(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=at(75)) as k:
        await k.press("d")
        k.sees("Due in Pantry  ·  1 to do now", "Feeding   Tab, Enter: why")
        k.sees_no("Attic")
        await k.press("d")
        k.sees("Due in all bins  ·  2 to do now", "Attic")
        await k.press("home", "d")
        k.sees("Due in Attic  ·  1 to do now")


async def test_when_nothing_presses_it_says_what_comes_next_and_when(tmp_path: Path) -> None:
    entries = (*a_usual_bin(), entry("checked", 62))
    async with keeper(a_home(tmp_path, entries), "pantry", wrist=at(63)) as k:
        await k.press("d")
        k.sees("Nothing presses. What comes next (Sat 9 May):", "Check the bin in 6 days.")
        k.sees_no("to do now", "! ")


async def test_without_a_bin_it_says_where_the_first_one_is_made(tmp_path: Path) -> None:
    async with keeper(tmp_path / "home") as k:
        await k.press("d")
        k.sees("No bins yet.", "Space makes the first one.")
        await k.press("enter", "space", "plus", "minus", "e", "u", "d", "tab")
        assert k.screen == "Due"


async def test_a_broken_file_is_left_out_and_said(tmp_path: Path) -> None:
    (two_bins(tmp_path) / "old.toml").write_text("format = 1\n[bin\n", encoding="utf-8")
    async with keeper(tmp_path, wrist=at(75)) as k:
        await k.press("d")
        k.sees("Which bin next; 1 file cannot be read, see the bins", "2 to do now")


async def test_a_bin_that_goes_away_while_it_is_looked_at(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=at(75)) as k:
        await k.press("d")
        (tmp_path / "pantry.toml").unlink()
        await k.look()
        k.sees("This bin cannot be read now.")
        await k.press("space", "plus", "e", "d")
        k.sees("all bins", "Attic")


async def test_from_120_columns_the_reason_stands_beside(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), size=(120, 40), wrist=at(75)) as k:
        await k.press("d")
        k.sees(
            "Tray A has been the feeding tray since Mon",
            "1   Attic   Feed tray A now (fed 15 days ago, every 5 days).",
        )
        await k.press("down")
        k.sees("Tray B has been the feeding tray since Thu")
        await k.press("tab")
        k.sees("That is 3.07 times its own interval between", "Of the scraps in it 23 g to 150 g are still")
        await k.resize(80, 24)
        k.sees_no("Of the scraps in it")
        assert k.footer_fits


async def test_a_full_stack_screen_says_how_many_more_there_are(tmp_path: Path) -> None:
    follow_ups = [
        entry("follow_up_set", 70, code=f"look-{n}", what=f"See number {n}, which is long", due=moment(74))
        for n in range(6)
    ]
    async with keeper(a_home(tmp_path, (*a_usual_bin(), *follow_ups)), "pantry", wrist=at(75)) as k:
        k.sees("d: all", "See number 0", "and 2 more; d shows all")
        await k.press("tab", "end", "enter")
        assert k.screen == "Due"
        k.sees(*[f"See number {n}" for n in range(6)])


def test_every_kind_of_due_thing_can_be_done() -> None:
    assert set(KINDS) == set(ACTS) | DONE_BY_WORD


def test_a_row_tells_day_bin_and_what_within_its_width() -> None:
    home = [due for due in due_list(stack_of(*a_usual_bin(), as_of=75, name="x" * 60)) if due.kind == "turn"]
    (row,) = due_rows(home, moment(75), 40, 16)
    assert len(row.lines) == 2
    assert all(sum(len(text) for text, _ in line) <= 2 + 12 + 16 + 24 for line in row.lines)
    assert (name_width([]), name_width(["Pantry"]), name_width(["Pantry", "x" * 80])) == (0, 8, 16)
