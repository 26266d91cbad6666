"""The stack screen: Space does the most pressing thing, every form saves, and `u` takes a whole act back."""

from pathlib import Path

import pytest

from tests.builders import a_usual_bin, entry, fed, moment, started, turned
from tests.tui.house import a_home
from tests.tui.stories import Wrist, keeper, samples
from trayturn.domain.entries import Entry


def separating(tray: str, *, ends: int = 15) -> tuple[Entry, ...]:
    """A rest of that tray, begun at ten on day 70."""
    begun = entry("separation_begun", 70, tray=tray)
    ends_at = moment(70, 10, ends)
    return begun, entry("step_started", 70, tray=tray, step="rest", pass_number=1, ends_at=ends_at)


NEW = (entry("worms_added", 0, worms_kg=0.3), fed("A", 0.1))
LOOKED = entry("checked", 75, feel="moist")
WAITING = turned("CBA", 65, A="finishing", B="feeding")
PRESSING: dict[str, tuple[tuple[Entry, ...], float, str, str]] = {
    "start": ((), 0, "Begin", "Soak the bedding and fill the first tray."),
    "watch": ((*a_usual_bin()[:2], *NEW), 1.5, "Watch", "Lift the lid and see where the worms are."),
    "feed": ((*a_usual_bin(), LOOKED), 76, "Feed", "Meal for tray B"),
    "check": (a_usual_bin(), 70, "Check", "Pantry  check"),
    "turn": ((*a_usual_bin(), fed("B", 119)), 121, "Plan", "Tray B"),
    "separation": ((*a_usual_bin(), WAITING), 66, "Separation", "Separate tray A"),
    "rest": ((*a_usual_bin(), *separating("A")), 70.01, "Separation", "Step 3 of 7"),
}


@pytest.mark.parametrize("kind", PRESSING)
async def test_space_does_the_most_pressing_thing(tmp_path: Path, kind: str) -> None:
    entries, day, screen, words = PRESSING[kind]
    home = a_home(tmp_path, entries)
    async with keeper(home, "pantry", wrist=Wrist(moment(day))) as k:
        await k.press("space")
        if kind in ("feed", "turn"):
            await k.heed()
        assert k.screen == screen
        k.sees(words)


async def test_space_opens_the_rest_that_is_over_though_another_tray_is_marked(tmp_path: Path) -> None:
    early = (
        started("A", 0, level=1),
        started("B", 0, level=2),
        turned("AB", 1, A="finishing", B="finishing"),
    )
    home = a_home(tmp_path, (*early, *separating("A", ends=2), *separating("B", ends=30)))
    async with keeper(home, "pantry", wrist=Wrist(moment(70, 10, 10))) as k:
        await k.press("up", "up", "space")
        k.sees("tray A", "Step 3 of 7")
        await k.press("escape", "up", "up", "s")
        k.sees("tray B", "Step 3 of 7")


async def test_enter_tells_the_marked_tray_and_each_due_thing(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "workshop") as k:
        await k.press("enter")
        k.sees("Tray D", "Esc or Enter closes")
        assert k.screen == "Reason"
        await k.press("escape", "tab", "down", "down", "enter")
        k.sees("Feed tray D once tray C is separated.", "feeding tray since Tue 22 Sep")


FORMS = {
    "i": ("note", "", "first frost", "Note saved."),
    "a": ("tray_started", "tab", "leaf mould=300 g", "Tray added."),
    "w": ("worms_added", "", "250 g", "Worms saved."),
}


async def test_every_form_saves_and_u_takes_each_back(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry"), "pantry") as k:
        before = k.standing("pantry")
        for key, (kind, move, text, said) in FORMS.items():
            await k.press(key)
            if k.screen == "CautionsSheet":
                await k.heed()
                before = k.standing("pantry")
            await k.press(*([move] if move else []))
            await k.type(text)
            await k.press("ctrl+s")
            k.sees(said)
            assert [e.kind for e in k.standing("pantry")[len(before) :]] == [kind], key
            await k.press("u")
            k.sees("Taken back: ")
            assert k.standing("pantry") == before


async def test_a_turn_shows_its_moves_saves_them_and_goes_back_whole(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "stairwell"), "stairwell") as k:
        order = [tray.id for tray in k.stack("stairwell").trays]
        await k.press("t")
        await k.heed()
        before = k.standing("stairwell")
        k.sees("Now", "After", "Tray D", "level 4, feeding", "was bedding on 2", "back on 1")
        await k.press("escape")
        assert k.standing("stairwell") == before
        await k.press("t", "e")
        k.sees("Turn saved. u takes it back")
        assert [tray.id for tray in k.stack("stairwell").trays] != order
        await k.press("u")
        assert k.standing("stairwell") == before
        assert [tray.id for tray in k.stack("stairwell").trays] == order


async def test_a_running_rest_is_seen_while_a_turn_is_looked_at(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "stairwell") as k:
        await k.press("t")
        await k.heed()
        await k.wait(minutes=1)
        k.sees("rest 06:00 left")
        await k.wait(minutes=10)
        k.sees("rest over for 4 min")
        await k.press("m")
        assert k.app._hushed == {k.app.rests[0].mark}


async def test_s_takes_the_finishing_tray_unless_another_is_marked(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "laundry", "stairwell"), "stairwell") as k:
        await k.press("s")
        k.sees("Separate tray B from its worms?")
    async with keeper(a_home(tmp_path / "home", a_usual_bin()), "pantry", wrist=Wrist(moment(70))) as k:
        await k.press("up", "up", "s")
        k.sees("Separate tray A from its worms?")
    fresh = (started("A", 0, stage="feeding"), started("B", 0))
    async with keeper(a_home(tmp_path / "new", fresh), "pantry", wrist=Wrist(moment(2))) as k:
        await k.press("up", "up", "s")
        k.sees("Separate tray A from its worms?", "It is still feeding")
        await k.press("escape", "down", "down", "s")
        assert k.screen == "Stack"
        k.sees("Nothing to separate: no tray has finished.")


async def test_what_is_due_is_wrapped_from_the_first_frame_on(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "workshop") as k:
        k.sees_no("…")
        k.sees("Feed tray D once tray C is")


async def test_a_vanished_file_is_said_a_form_keeps_its_words_and_goes_on(tmp_path: Path) -> None:
    file = samples(tmp_path, "workshop") / "workshop.toml"
    away = tmp_path / "kept"
    async with keeper(tmp_path, "workshop") as k:
        await k.press("i")
        await k.type("first frost")
        file.rename(away)
        await k.look()
        await k.press("ctrl+s")
        k.sees("workshop.toml is gone", "first frost")
        k.sees_no("07:00 left")
        away.rename(file)
        await k.look()
        await k.press("ctrl+s")
        k.sees("Note saved.")
        assert k.standing("workshop")[-1].kind == "note"
        file.rename(away)
        await k.look()
        k.sees("its file is gone", "Put the file back")
        await k.press("enter", "space", "f", "s", "t", "j", "escape", "u", "c", "escape")
        assert k.screen == "Stack"
        away.rename(file)
        await k.look()
        k.sees("Due", "C  separating")
