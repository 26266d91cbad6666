"""The colours of titles, rests and marks in both themes: warm for work to do, cool for waiting."""

from __future__ import annotations

DARK_FRAME = {
    "act": "#f2a33c",
    "wait": "#8fc0d9",
    "act-ground": "#f2a33c",
    "on-act": "#1c1205",
    "wait-ground": "#1d4257",
    "on-wait": "#e3f1f8",
    "marked": "#3a3023",
    "title-ground": "#2b241b",
    "on-title": "#ece3d2",
    "quiet": "#b3a792",
}
LIGHT_FRAME = {
    "act": "#8a3900",
    "wait": "#155c88",
    "act-ground": "#973f00",
    "on-act": "#fff7ea",
    "wait-ground": "#155c88",
    "on-wait": "#f2f9fd",
    "marked": "#d3c7aa",
    "title-ground": "#e0d6c0",
    "on-title": "#2a231a",
    "quiet": "#574d3f",
}


def frame_colours(dark: bool) -> dict[str, str]:
    """The frame's colour variables for a dark or a light theme."""
    return DARK_FRAME if dark else LIGHT_FRAME
