"""Text for people: wrapped to 80 columns, cleaned of what a terminal would act on."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from pathlib import Path

from trayturn.domain.words import clean

WIDTH = 79
LONGEST = 1_000_000
PLAIN_SIGNS = str.maketrans(
    {"°": None, "…": "...", "–": "-", "—": "-", "×": "x", "²": "2", "’": "'", "·": "-"}
)


class Page:
    """Lines of text on their way to stdout. `plain_signs` writes the program's own signs as plain ones."""

    def __init__(self, plain_signs: bool = False) -> None:
        self._plain_signs = plain_signs

    def line(self, text: str = "", indent: int = 0, hanging: int = 0) -> None:
        """A sentence or several, wrapped; the lines after the first stand further in by `hanging`."""
        wrapped = textwrap.wrap(
            self.plain(text),
            WIDTH,
            initial_indent=" " * indent,
            subsequent_indent=" " * (indent + hanging),
            break_on_hyphens=False,
        )
        print("\n".join(wrapped))

    def lines(self, texts: Iterable[str], indent: int = 0, hanging: int = 0) -> None:
        """Each text as its own wrapped line."""
        for text in texts:
            self.line(text, indent, hanging)

    def row(self, label: str, text: str, width: int, indent: int = 2) -> None:
        """A label in a column of its own, and text wrapped beside it. A longer label has its own line."""
        if len(label) >= width:
            self.line(label, indent)
            self.line(text, indent + width)
        else:
            self.line(f"{label:{width}}{text}", indent, width)

    def title(self, left: str, right: str) -> None:
        """A name at the left and words at the right, on one line where both fit."""
        gap = WIDTH - len(left) - len(right)
        self.lines([left, right]) if gap < 2 else print(self.plain(left + " " * gap + right))

    def path(self, label: str, path: Path) -> None:
        """Where a file is, in one piece however long: it is copied with the mouse."""
        print(f"{label} {clean(str(path))}")

    def command(self, words: str) -> None:
        """A command to be typed, in one piece however long: it is copied with the mouse."""
        print(f"  {self.plain(words)}")

    def plain(self, text: str) -> str:
        """The text as it is printed: nothing a terminal would act on, and plain signs where asked."""
        cleaned = clean(text, LONGEST)
        return cleaned.translate(PLAIN_SIGNS) if self._plain_signs else cleaned


def column(labels: Sequence[str], most: int = 24) -> int:
    """How wide a column of labels is, with its gap."""
    return min(max(map(len, labels), default=0), most) + 2
