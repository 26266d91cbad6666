"""The rows of the bins screen: a bin's name, and what is due in it."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from trayturn.tui.widgets.line_list import Row, Span

if TYPE_CHECKING:
    from pathlib import Path

    from trayturn.domain.stack import Stack
    from trayturn.storage.reading import Loaded


def bin_row(path: Path, loaded: Loaded | None, stack: Stack | None, now: datetime) -> Row:
    """One bin in two lines: its name and place, and the most pressing thing."""
    key = path.stem
    if loaded is None:
        return Row((((key, "strong"),), (("  reading…", "muted"),)), key)
    if stack is None or loaded.read_only:
        return Row((((key, "strong"),), (("  has a fault; Enter shows it", "error"),)), key)
    from trayturn.domain.words import clean

    name: tuple[Span, ...] = ((clean(stack.setup.name, 40), "strong"),)
    if stack.setup.place:
        name += (("  " + clean(stack.setup.place, 60), "muted"),)
    return Row((name, _pressing(stack, now)), key)


def _pressing(stack: Stack, now: datetime) -> tuple[Span, ...]:
    from trayturn.advice.due import due_list

    due = due_list(stack)
    if not due:
        return (("  nothing is due", "muted"),)
    first = due[0]
    look = "act" if first.pressing else "plain"
    return (("  " + first.what, look), *(((f"  (+{len(due) - 1})", "muted"),) if len(due) > 1 else ()))
