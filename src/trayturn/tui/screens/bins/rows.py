"""The rows of the bins screen: a bin's name, and what is due in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from trayturn.tui.widgets.line_list import Row, Span

if TYPE_CHECKING:
    from pathlib import Path

    from trayturn.advice.due import Due
    from trayturn.domain.stack import Stack
    from trayturn.storage.reading import Loaded


def bin_row(path: Path, loaded: Loaded | None, stack: Stack | None) -> Row:
    """One bin: its name and place, the most pressing thing, and until when it rests from feeding."""
    key = path.stem
    if loaded is None:
        return Row((((key, "strong"),), (("  reading…", "muted"),), ()), key)
    if stack is None or loaded.read_only:
        return Row((((key, "strong"),), (("  has a fault; Enter shows it", "error"),), ()), key)
    from trayturn.domain.words import clean

    name: tuple[Span, ...] = ((clean(stack.setup.name, 40), "strong"),)
    if stack.setup.place:
        name += (("  " + clean(stack.setup.place, 60), "muted"),)
    return Row((name, _pressing(stack), *_resting(stack), ()), key)


def _pressing(stack: Stack) -> tuple[Span, ...]:
    from trayturn.advice.due import due_list

    due = due_list(stack)
    if not due:
        return (("  nothing is due", "muted"),)
    first = due[0]
    mark: Span = ("! ", "act") if first.pressing else ("  ", "plain")
    more: tuple[Span, ...] = ((f"  and {len(due) - 1} more", "muted"),) if len(due) > 1 else ()
    return (mark, (first.what, "act" if first.pressing else "plain"), *more)


def _resting(stack: Stack) -> tuple[tuple[Span, ...], ...]:
    from trayturn.advice.next import what_next
    from trayturn.domain.words import clean, day

    (one,) = what_next([stack])
    if not one.resting:
        return ()
    # The day alone, where one is known: there is no room for what is done on it.
    told = f"Rests until {day(one.until, stack.as_of)}." if one.until is not None else clean(one.what)
    return ((("  ", "plain"), (told, "wait")),)


def _most_pressing(stack: Stack) -> Due:
    from trayturn.advice.due import due_list

    return due_list(stack)[0]


def by_press(
    paths: Sequence[Path], loaded: Mapping[str, Loaded], stacks: Mapping[str, Stack | None]
) -> list[Path]:
    """The bins in the order their work presses: those that cannot be read first, those still unread last."""

    def order(path: Path) -> tuple[object, ...]:
        if path.stem not in loaded:
            return (2,)
        stack = stacks.get(path.stem)
        return (0,) if stack is None else (1, *_most_pressing(stack).order)

    return sorted(paths, key=order)
