"""The two themes: contrast by the formula of WCAG 2.2, few colours, and any other theme."""

from __future__ import annotations

from itertools import product

import pytest
from rich.color import Color, ColorSystem
from textual.theme import Theme

from tests.tui.pictures import FOUR, MOVING, RESTING, DrawingApp
from trayturn.tui import themes
from trayturn.tui.widgets.stack_drawing import StackDrawing
from trayturn.tui.widgets.stack_drawing.geometry import lay_out
from trayturn.tui.widgets.stack_drawing.glyphs import BLOCKS, PAINTS
from trayturn.tui.widgets.stack_drawing.paint import draw
from trayturn.tui.widgets.stack_drawing.paint_tray import BODY

OURS = [themes.LOAM, themes.STRAW]
DRAWINGS = {"loam": themes.LOAM_DRAWING, "straw": themes.STRAW_DRAWING}
BODIES = {*BODY.values()} - {"air"}

WORDS = {
    ("text", "ground"),
    ("muted", "ground"),
    ("muted", "air"),
    ("water-text", "ground"),
    ("act", "ground"),
    ("act-tag-text", "act-tag"),
    ("chosen", "ground"),
    ("plate-text", "plate"),
    ("tag-text", "tag"),
}
SHAPES = {
    *product(("wall", "chosen", "lid", "sheet", "worm-way"), ("ground",)),
    *product(("wall", "chosen", "water", *BODIES), ("air",)),
    *((f"{body}-mark", body) for body in BODIES),
    ("food-bit", "food"),
    ("food-leaf", "food"),
    *product(("worm",), BODIES - {"shreds"}),
    ("tag", "plate"),
    ("act-tag", "plate"),
}
ORNAMENT = {
    ("water-mark", "water"),
    ("lid", "sheet"),
    ("ground", "ground"),
    *product(("wall", "chosen"), BODIES),
}
"""Pairings that say nothing which a word or another shape does not say as well."""


def luminance(colour: str) -> float:
    """Relative luminance of `#rrggbb`."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def too_weak(
    drawing: dict[str, str], pairs: set[tuple[str, str]], least: float
) -> dict[tuple[str, str], float]:
    found = {pair: round(contrast(drawing[pair[0]], drawing[pair[1]]), 2) for pair in pairs}
    return {pair: ratio for pair, ratio in found.items() if ratio < least}


def test_the_formula_on_known_pairs() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#0072b2", "#ffffff") == pytest.approx(5.19, abs=0.01)


@pytest.mark.parametrize("name", DRAWINGS)
def test_words_in_the_drawing_are_readable(name: str) -> None:
    assert too_weak(DRAWINGS[name], WORDS, 4.5) == {}


@pytest.mark.parametrize("name", DRAWINGS)
def test_shapes_in_the_drawing_stand_out(name: str) -> None:
    assert too_weak(DRAWINGS[name], SHAPES, 3.0) == {}


def test_no_pairing_that_is_drawn_goes_unchecked() -> None:
    drawn = set()
    for picture, (width, height) in product((FOUR, RESTING, MOVING), ((24, 8), (38, 18), (60, 34))):
        canvas = draw(picture, lay_out(picture, width, height), BLOCKS, "B")
        runs = [run for y in range(height) for run in canvas.runs(y)]
        drawn |= {(ink.fore, ink.back) for text, ink in runs if text.strip()}
    assert drawn - WORDS - SHAPES - ORNAMENT == set()


@pytest.mark.parametrize("theme", OURS, ids=lambda t: t.name)
def test_words_on_the_screens_are_readable(theme: Theme) -> None:
    grounds = (theme.background, theme.surface, theme.panel)
    words = (
        theme.foreground,
        theme.primary,
        theme.secondary,
        theme.accent,
        theme.warning,
        theme.error,
        theme.success,
    )
    pairs = [(word, ground) for word, ground in product(words, grounds) if word and ground]
    assert len(pairs) == 21
    assert [pair for pair in pairs if contrast(*pair) < 4.5] == []


@pytest.mark.parametrize("name", DRAWINGS)
def test_with_sixteen_colours_no_word_sinks_into_its_ground(name: str) -> None:
    def few(paint: str) -> int | None:
        return Color.parse(DRAWINGS[name][paint]).downgrade(ColorSystem.STANDARD).number

    assert [pair for pair in WORDS if few(pair[0]) == few(pair[1])] == []


def test_both_themes_name_every_colour_of_the_drawing() -> None:
    assert [set(drawing) for drawing in DRAWINGS.values()] == [set(PAINTS), set(PAINTS)]


@pytest.mark.parametrize("theme", ["loam", "straw", "nord", "textual-light"])
async def test_the_drawing_takes_its_colours_from_the_theme_or_its_defaults(theme: str) -> None:
    drawing = StackDrawing(FOUR)
    async with DrawingApp(drawing, theme).run_test(size=(60, 34)) as pilot:
        await pilot.pause()
        strip = drawing.render_line(0)
        expected = themes.drawing_defaults(pilot.app.current_theme.dark)["stack-ground"]
    assert {segment.style.bgcolor.name for segment in strip if segment.style and segment.style.bgcolor} == {
        expected
    }


@pytest.mark.parametrize("theme", ["ansi-dark", "ansi-light"])
async def test_in_the_terminals_own_colours_nothing_is_drawn_in_its_ground(theme: str) -> None:
    drawing = StackDrawing(RESTING, selected="C")
    async with DrawingApp(drawing, theme).run_test(size=(60, 34)) as pilot:
        await pilot.pause()
        styles = [
            segment.style
            for y in range(34)
            for segment in drawing.render_line(y)
            if segment.text.strip() and segment.style
        ]
    hidden = [s for s in styles if s.color == s.bgcolor and s.color is not None and not s.color.is_default]
    assert styles
    assert hidden == []
    assert any(style.reverse for style in styles)


async def test_a_theme_switch_repaints() -> None:
    drawing = StackDrawing(FOUR)
    app = DrawingApp(drawing)
    async with app.run_test(size=(38, 18)) as pilot:
        await pilot.pause()
        before = drawing.render_line(17)
        app.theme = "straw"
        await pilot.pause()
        after = drawing.render_line(17)
    assert before.text == after.text
    assert before != after
