"""One declaration a command: its key, help and palette entry, and one letter with one meaning."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from textual.command import CommandPalette

from tests.tui.stories import heeded, keeper, samples
from tests.tui.test_sizes_story import TOUR
from trayturn.tui.commands import COMMANDS, EVERYWHERE, commands_of
from trayturn.tui.screens.help import key_words

THEMES = {"Dark theme", "Light theme", "Letters only"}


def test_a_key_stands_for_one_command_of_a_screen() -> None:
    for place in EVERYWHERE:
        keys = Counter(key for command in commands_of(place) for key in command.keys.split(",") if key)
        assert [key for key, times in keys.items() if times > 1] == []


def test_a_letter_means_one_thing_everywhere() -> None:
    letters = [key for command in COMMANDS for key in command.keys.split(",") if len(key) == 1]
    assert sorted(letters) == sorted(set(letters))
    assert len({command.id for command in COMMANDS}) == len(COMMANDS)


def test_a_footer_shows_only_keys_of_its_screen() -> None:
    assert [command.id for command in COMMANDS if not command.shown <= command.where] == []


async def test_help_lists_exactly_the_keys_of_each_screen(tmp_path: Path) -> None:
    async with keeper(heeded(tmp_path)) as k:
        for name in ("bins", "due", "stack", "journal", "cautions", "check", "rest"):
            await k.press(*{**TOUR, "rest": ("escape", "s")}[name])
            place = {"rest": "separation"}.get(name, name)
            bound = {b.id for b in k.app.screen._bindings.key_to_bindings.get("m", []) if b.id}
            assert bound == {f"{place}.hush"}
            await k.press("question_mark")
            told = [line.split("  ")[0] for line in k.reads("#keys").splitlines()]
            assert told == [key_words(command) for command in commands_of(place)]
            await k.press("escape")


async def test_the_palette_offers_what_can_be_done_now_and_does_it(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "workshop") as k:
        screen = k.app.screen
        offered = {command.title for command in k.app.get_system_commands(screen)}
        assert offered == THEMES | {command.label for command in commands_of("stack")}
        await k.press("slash")
        assert isinstance(k.app.screen, CommandPalette)
        for letter in "supplies":
            await k.press(letter)
        await k.app.workers.wait_for_complete()
        await k.press("down", "enter")
        for _ in range(20):
            await k.pilot.pause()
        k.sees("Supplies of Workshop")


async def test_what_cannot_be_done_now_is_not_offered(tmp_path: Path) -> None:
    async with keeper(tmp_path) as k:
        offered = {command.title for command in k.app.get_system_commands(k.app.screen)}
        known = {"Do it", "Past year", "New bin", "Due", "Cautions", "Handbook", "Hush", "Help", "Quit"}
        assert offered == THEMES | known


async def test_every_named_key_works_on_every_screen_without_harm(tmp_path: Path) -> None:
    async with keeper(heeded(tmp_path)) as k:
        await k.press("home", "enter", "s")
        for command in COMMANDS:
            if command.id in ("quit", "leave", "put_back") or not command.keys:
                continue
            await k.press(command.keys.split(",")[0])
            while k.screen not in ("Separation", "Bins"):
                await k.press("escape")
        assert k.screen == "Separation"
