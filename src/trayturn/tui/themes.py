"""Two themes of our own, in earth and leaf tones, and the colours of the stack drawing in both.

Warm stands for work to be done, cool for waiting, plain for what is fine. Each pairing that carries
words keeps a contrast of at least 4.5 to 1 and each that carries meaning as a shape at least 3 to 1
(WCAG 2.2, success criteria 1.4.3 and 1.4.11).
"""

from __future__ import annotations

from typing import Any

from textual.app import App
from textual.theme import Theme

LOAM_DRAWING = {
    "ground": "#15120e",
    "text": "#ece3d2",
    "muted": "#a99d89",
    "air": "#1b1711",
    "wall": "#94897a",
    "chosen": "#fff6e0",
    "lid": "#7f8a72",
    "sheet": "#c7b48f",
    "shreds": "#cdb68a",
    "shreds-mark": "#594a2c",
    "soaked": "#83692c",
    "soaked-mark": "#e2d2a6",
    "food": "#6e6831",
    "food-mark": "#d5c795",
    "food-bit": "#f5ba64",
    "food-leaf": "#b7d867",
    "castings": "#785f48",
    "castings-mark": "#dac3a8",
    "worm": "#ffcbbf",
    "worm-way": "#e58f80",
    "water": "#4fb4f0",
    "water-mark": "#1d4f70",
    "water-text": "#4fb4f0",
    "plate": "#15120e",
    "plate-text": "#f4ecdc",
    "tag": "#f0e7d3",
    "tag-text": "#15120e",
    "act": "#f2a33c",
    "act-tag": "#f2a33c",
    "act-tag-text": "#1c1205",
}
STRAW_DRAWING = {
    "ground": "#f5efe2",
    "text": "#2a231a",
    "muted": "#665b4b",
    "air": "#ece3d0",
    "wall": "#7d7161",
    "chosen": "#1d1710",
    "lid": "#6a775a",
    "sheet": "#967b4a",
    "shreds": "#98793f",
    "shreds-mark": "#f6e9c8",
    "soaked": "#7b6336",
    "soaked-mark": "#ead9ab",
    "food": "#5d5a26",
    "food-mark": "#e5dbb0",
    "food-bit": "#f6c377",
    "food-leaf": "#c4e07c",
    "castings": "#47352a",
    "castings-mark": "#c2a587",
    "worm": "#ffd3c8",
    "worm-way": "#a84435",
    "water": "#1a6a9a",
    "water-mark": "#bfe0f3",
    "water-text": "#0a4fa0",
    "plate": "#f5efe2",
    "plate-text": "#211a11",
    "tag": "#2a2218",
    "tag-text": "#f8f2e6",
    "act": "#973f00",
    "act-tag": "#cf6c0c",
    "act-tag-text": "#170e03",
}


def _named(drawing: dict[str, str]) -> dict[str, str]:
    return {f"stack-{paint}": colour for paint, colour in drawing.items()}


LOAM = Theme(
    name="loam",
    dark=True,
    primary="#9db36b",
    secondary="#7fb0c9",
    accent="#f2a33c",
    warning="#f2a33c",
    error="#ee8a70",
    success="#9db36b",
    foreground="#ece3d2",
    background="#15120e",
    surface="#1f1a14",
    panel="#2b241b",
    variables=_named(LOAM_DRAWING),
)
"""Dark: damp soil, moss and straw."""

STRAW = Theme(
    name="straw",
    dark=False,
    primary="#445f20",
    secondary="#1b5f86",
    accent="#973f00",
    warning="#973f00",
    error="#94204c",
    success="#445f20",
    foreground="#2a231a",
    background="#f5efe2",
    surface="#ece4d2",
    panel="#e0d6c0",
    variables=_named(STRAW_DRAWING),
)
"""Light: straw, leaf and bark."""


def register(app: App[Any]) -> None:
    """Makes both themes known to the app."""
    app.register_theme(LOAM)
    app.register_theme(STRAW)


def drawing_defaults(dark: bool) -> dict[str, str]:
    """The drawing's colours for a theme that does not name them, dark or light.

    An app that shows the drawing returns these from `get_theme_variable_defaults`, so that any theme works.
    """
    return _named(LOAM_DRAWING if dark else STRAW_DRAWING)
