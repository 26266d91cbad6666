"""Lines of spans as text for a widget that wraps nothing: the same looks as in a list of lines."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from trayturn.tui.widgets.line_list import Span

STYLES = {
    "plain": "",
    "strong": "bold",
    "muted": "$quiet",
    "act": "bold $act",
    "wait": "$wait",
    "fine": "$text-success",
    "error": "bold $text-error",
}


def spans_content(lines: Sequence[Sequence[Span]]) -> Content:
    """The lines as one text. Nothing in them is taken for markup."""
    return Content("\n").join(
        Content.assemble(*((text, STYLES[look]) for text, look in line)) for line in lines
    )
