"""Every screen in every look: dark, light, the terminal's own colours, no colour, and letters only."""

from __future__ import annotations

from itertools import product
from pathlib import Path

import pytest
from textual.theme import Theme

from tests.tui.stories import heeded, keeper, samples
from tests.tui.test_sizes_story import toured
from tests.tui.test_themes import OURS, contrast
from trayturn.tui.frame_colours import frame_colours

SAID = {
    "stack": ("separating", "feeding", "bedding", "feed next"),
    "cautions": ("[x]", "read today"),
    "put right": ("] rotten", "Causes, the likeliest first"),
    "causes": ("possible", "For: "),
    "check": ("not read yet", "1 dry: crumbles"),
    "skim": ("Step 4 of 7", "Skim, pass 2"),
    "decide": ("[1 one more pass]",),
    "summary": ("Summary", "Done."),
}
"""What must be told in words, whatever the colours."""


@pytest.mark.parametrize("look", ["dark", "light", "ansi-dark", "ansi-light", "no colour", "letters only"])
async def test_every_screen_in_every_look(tmp_path: Path, look: str, monkeypatch: pytest.MonkeyPatch) -> None:
    if look == "no colour":
        monkeypatch.setenv("NO_COLOR", "1")
    theme = "light" if look == "light" else "dark"
    async with keeper(heeded(tmp_path), theme=theme, ascii=look == "letters only") as k:
        if look.startswith("ansi"):
            k.app.theme = look
            await k.pilot.pause()
        assert k.app.no_color is (look == "no colour")
        pictures = await toured(k)
    for name, words in SAID.items():
        assert [word for word in words if word not in pictures[name]] == [], name
    if look == "letters only":
        assert {name: odd for name, picture in pictures.items() if (odd := set(picture) - ASCII)} == {}
    else:
        assert "▜" in pictures["stack"]


ASCII = {chr(code) for code in range(128)}


async def test_letters_only_comes_and_goes_and_covers_trouble_and_the_palette(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "workshop"), "workshop") as k:
        await k.press("s", "e", "2", "space", "b")
        boxed = k.picture
        k.app._toggle_ascii()
        k.app.warn("The disk is full.")
        await k.pilot.pause()
        k.sees("The disk is full.")
        assert set(k.picture) <= ASCII
        await k.press("slash")
        k.sees("Search for commands")
        assert set(k.picture) <= ASCII
        await k.press("escape")
        k.app.clear_notifications()
        k.app._toggle_ascii()
        await k.pilot.pause()
        assert k.picture == boxed


GROUNDS = {
    "act": ("background", "panel", "marked"),
    "wait": ("title-ground", "background", "panel"),
    "on-act": ("act-ground",),
    "on-wait": ("wait-ground",),
    "on-title": ("title-ground",),
    "quiet": ("background", "surface", "panel", "marked"),
    "foreground": ("background", "surface", "panel", "marked"),
}
"""Which words are written on which grounds."""


@pytest.mark.parametrize("theme", OURS, ids=lambda theme: theme.name)
def test_words_of_the_frame_are_readable(theme: Theme) -> None:
    grounds = {"background": theme.background, "surface": theme.surface, "panel": theme.panel}
    colours = {**frame_colours(theme.dark), **grounds, "foreground": theme.foreground}
    pairs = [pair for word, under in GROUNDS.items() for pair in product([word], under)]
    weak = {
        pair: ratio
        for pair in pairs
        if (ratio := contrast(colours[pair[0]] or "", colours[pair[1]] or "")) < 4.5
    }
    assert weak == {}


def test_both_themes_name_the_same_colours() -> None:
    assert set(frame_colours(True)) == set(frame_colours(False))
