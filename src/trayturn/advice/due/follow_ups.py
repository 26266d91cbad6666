"""What the keeper set out to look at again."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.due.item import Due, Press, due_at
from trayturn.advice.phrases import day_has_come, when
from trayturn.domain.entries import FollowUpSet, name_entry
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, listed


def follow_ups(stack: Stack) -> Iterator[Due]:
    """Each follow-up that is open, pressing from its day on."""
    for one in stack.follow_ups.values():
        press = Press.NOW if day_has_come(one.due, stack.as_of) else Press.LATER
        yield due_at(stack, "follow_up", _what(one), _why(one, stack), one.due, one.tray, press, one.code)


def _what(one: FollowUpSet) -> str:
    """As the keeper reads it, with its tray, and as a sentence."""
    what = clean(one.what).strip().rstrip(".") or "Look again"
    named = one.tray is None or f"tray {one.tray}".casefold() in what.casefold()
    return f"{what}." if named else f"Tray {one.tray}: {what}."


def _why(one: FollowUpSet, stack: Stack) -> tuple[str, ...]:
    seen = listed(sign.replace("_", " ").replace("-", " ") for sign in one.signs)
    lines = (
        f"Seen: {seen}." if seen else "",
        f"Set {when(one.at, stack.as_of)}, by the entry {name_entry(one)}.",
        clean(one.why).strip(),
        clean(one.note).strip(),
    )
    return tuple(line for line in lines if line)
