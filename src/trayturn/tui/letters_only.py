"""Letters only: what the screens draw themselves in plain ASCII, whichever widget drew it."""

from __future__ import annotations

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

SIGNS = str.maketrans(
    {
        **dict.fromkeys("┏┓┗┛┣┫┻┳╋├┤┌┐└┘╭╮╰╯", "+"),
        **dict.fromkeys("┃│╹╻╵╷▌▐", "|"),
        **dict.fromkeys("━─╸╺╴╶▁▔", "-"),
        **dict.fromkeys("▂▃▄▅▆▇█▊▎▍▋▉▏°", " "),
        "…": "~",
        "·": ".",
        "▶": ">",
    }
)
"""One sign for one, so that nothing moves. Letters of any script are the keeper's own, and stay."""


class LettersOnly(LineFilter):
    """Puts plain signs in the place of lines, blocks and dots."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        return [
            segment if segment.text.isascii() else segment._replace(text=segment.text.translate(SIGNS))
            for segment in segments
        ]
