"""Text that is made for the room there is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from textwrap import wrap

from textual.content import Content
from textual.widget import Widget

MORE = "Enter tells more."


class Fitted(Widget):
    """Words that `make(width, height)` gives for the size of the widget, whatever it becomes."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self._make: Callable[[int, int], str] = lambda width, height: ""

    def show(self, make: Callable[[int, int], str]) -> None:
        """Make the words by that from now on."""
        self._make = make
        self.refresh()

    @property
    def words(self) -> str:
        """What stands there."""
        return self._make(*self.content_size)

    def render(self) -> Content:
        return Content(self.words)


def fitting(lines: Sequence[str], width: int, height: int) -> str:
    """As many whole sentences as have room; where not all do, that Enter tells more."""
    heights = [max(1, len(wrap(line, max(10, width)))) for line in lines]
    if sum(heights) <= height:
        return "\n".join(lines)
    kept, free = list[str](), height - 1
    for line, high in zip(lines, heights, strict=True):
        if high > free:
            break
        kept.append(line)
        free -= high
    return "\n".join([*kept, MORE])
