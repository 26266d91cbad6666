"""A sheet of choices: what is typed moves the mark, Enter takes, and nothing gets past it."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual import events

from tests.tui.separating import a_keeper, marked_choices, row, take, to_the_skim
from tests.tui.stories import Keeper
from trayturn.tui.widgets.choose import Choose


@asynccontextmanager
async def choosing(
    home: Path, *names: str, marked: str = ""
) -> AsyncIterator[tuple[Keeper, list[str | None]]]:
    async with a_keeper(home) as k:
        taken: list[str | None] = []
        await k.app.push_screen(Choose("Which?", [(name, name, "") for name in names], marked), taken.append)
        await k.pause()
        yield k, taken


def keys_of(text: str) -> list[str]:
    names = {" ": "space", ",": "comma", "\n": "enter", "-": "minus"}
    return [names.get(letter, letter) for letter in text]


async def at_once(k: Keeper, text: str) -> None:
    """Keys as quick as a paste sends them: all are on their way before the first is answered."""
    for key, letter in zip(keys_of(text), text, strict=True):
        k.app.post_message(events.Key(key, "\r" if letter == "\n" else letter))
    for _ in range(8):
        await k.pause()


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("m", "mango stone"),
        ("man", "mango stone"),
        ("mai", "maize cob"),
        ("3", "other"),
        ("9", "avocado stone"),
    ],
)
async def test_letters_and_digits_move_the_mark_and_take_nothing(
    tmp_path: Path, typed: str, found: str
) -> None:
    async with choosing(tmp_path, "avocado stone", "mango stone", "other", "maize cob") as (k, taken):
        await k.press(*keys_of(typed))
        assert taken == []
        await k.press("enter")
        assert taken == [found]


async def test_space_takes_nothing_and_is_a_letter_of_a_name(tmp_path: Path) -> None:
    async with choosing(tmp_path, "corn", "corn cob") as (k, taken):
        await k.press("space")
        assert k.screen == "Choose"
        await k.press(*keys_of("corn c"), "enter")
        assert taken == ["corn cob"]


async def test_what_no_line_begins_with_is_said_and_rubbed_out(tmp_path: Path) -> None:
    async with choosing(tmp_path, "corn", "mango stone") as (k, taken):
        await k.press(*keys_of("mx"))
        k.sees("Typed: mx", "(no line begins so)")
        await k.press("backspace", "backspace", "c", "enter")
        assert taken == ["corn"]


async def test_where_names_begin_with_digits_a_digit_is_the_beginning_of_a_name(tmp_path: Path) -> None:
    async with choosing(tmp_path, "not measured", "1 cm", "6 cm", "10 cm") as (k, taken):
        k.sees("What is typed marks the line of it")
        await k.press(*keys_of("10"), "enter")
        assert taken == ["10 cm"]


async def test_moving_by_hand_begins_the_typing_anew(tmp_path: Path) -> None:
    async with choosing(tmp_path, "bark", "corn", "mango stone") as (k, taken):
        await k.press("m", "up")
        k.sees_no("Typed:")
        await k.press("b", "enter")
        assert taken == ["bark"]


async def test_the_mark_begins_where_it_was_asked_for_also_far_down(tmp_path: Path) -> None:
    names = [f"thing {n}" for n in range(40)]
    async with choosing(tmp_path, *names, marked="thing 33") as (k, taken):
        k.sees("thing 33")
        await k.press("enter")
        assert taken == ["thing 33"]


async def test_a_name_typed_while_picking_is_no_command_to_the_screen_beneath(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await k.press("1")
        await row(k, "Add a piece")
        before = k.standing("pantry")
        await k.press("enter", *keys_of("mango stone, 6 cm"))
        assert k.screen == "Choose"
        assert "mango stone" in marked_choices(k)[0]
        assert k.standing("pantry") == before
        await k.press("enter")
        k.sees("How long is the longest?")
        await k.press(*keys_of("6 cm"), "enter")
        k.sees("mango stone", "-  1, 6 cm  +")


@pytest.mark.parametrize("text", ["\nmango stone, 6 cm", "\nmango\n6 c b e\n", "\n2\n\n c b e "])
async def test_keys_too_quick_for_the_sheets_are_lost_and_not_obeyed(tmp_path: Path, text: str) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await k.press("1")
        await row(k, "Add a piece")
        before = k.standing("pantry")
        await at_once(k, text)
        assert k.standing("pantry") == before
        assert k.screen == "Choose"


async def test_a_picker_opens_at_what_is_written(tmp_path: Path) -> None:
    async with a_keeper(tmp_path) as k:
        await to_the_skim(k)
        await row(k, "Add contaminant")
        await k.press("enter")
        await take(k, "tape")
        await take(k, "cabbage")
        await k.press("enter")
        assert "cabbage" in marked_choices(k)[0]
        await k.press("space", "enter")
        k.sees("-  1, with cabbage  +")
        await row(k, "Add a piece")
        await k.press("enter")
        await take(k, "corn cob")
        await take(k, "15 cm")
        await k.press("enter")
        assert "15 cm" in marked_choices(k)[0]
