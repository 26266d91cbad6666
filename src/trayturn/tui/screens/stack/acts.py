"""Doing a due thing: what each kind opens or writes, from whichever screen it stands on."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from trayturn.advice.castings.taking_up import old_tubs, tub_key
from trayturn.advice.due.castings import lot_of
from trayturn.advice.due.keepers_word import mark_done
from trayturn.domain.entries import Stage
from trayturn.tui.screens.cautions.sheet import read_first
from trayturn.tui.screens.stack import beginning, recording
from trayturn.tui.ways import go
from trayturn.tui.widgets.reason import ReasonScreen

if TYPE_CHECKING:
    from trayturn.advice.due import Due
    from trayturn.domain.stack import Stack
    from trayturn.tui.app import TrayturnApp


def do(house: TrayturnApp, due: Due, marked: str | None = None) -> None:
    """Do what is due: open its form or its work, of its own tray or else of the marked one.

    What has neither is marked done once its day has come; before that its reason is told.
    """
    if (act := ACTS.get(due.kind)) is not None:
        act(house, due.bin, _lot(house, due) if due.kind == "castings" else due.tray or marked)
    elif due.pressing and due.kind == "hatch" and (tub := _tub(house, due)) is not None:
        go(house, "castings", due.bin, tub)
    elif due.pressing:
        close(house, due)
    else:
        why(house, due)


def _lot(house: TrayturnApp, due: Due) -> str | None:
    """The lot of castings it is about."""
    stack = house.shelf.stack(due.bin)
    lot = lot_of(due, stack) if stack is not None else None
    return lot.code if lot is not None else None


def _tub(house: TrayturnApp, due: Due) -> str | None:
    """The castings it is about, by their row on the castings screen, where they can be taken up as a lot."""
    stack = house.shelf.stack(due.bin)
    tubs = old_tubs(stack) if stack is not None else ()
    return next((tub_key(tub) for tub in tubs if tub.tray == due.tray), None)


def close(house: TrayturnApp, due: Due) -> None:
    """Mark it done; what is done by writing down an act of its own opens that act instead."""
    if due.done_by_word:
        house.save(due.bin, [mark_done(due, house.now)], "Done. u takes it back")
    else:
        do(house, due)


def why(house: TrayturnApp, due: Due) -> None:
    """The reason behind it, with its page of the handbook."""
    house.push_screen(ReasonScreen(due.what, list(due.why), due.page))


def feed(house: TrayturnApp, key: str, tray: str | None) -> None:
    """A feeding, once the cautions before the first one are read."""
    read_first(house, key, "feeding", lambda: go(house, "feed", key, tray))


def feed_by_form(house: TrayturnApp, key: str, tray: str | None) -> None:
    """The same typed, which may be of a past day."""
    read_first(house, key, "feeding", lambda: recording.feed(house, key, tray))


def check(house: TrayturnApp, key: str, tray: str | None) -> None:
    """Readings, of that tray or of the whole bin."""
    go(house, "check", key, tray)


def turn(house: TrayturnApp, key: str, tray: str | None = None) -> None:
    """The turn day under way, or the plan of one."""
    stack = house.shelf.stack(key)
    if stack is not None and stack.turn_day is not None:
        go(house, "turn_day_run", key)
    else:
        read_first(house, key, "turn", lambda: go(house, "turn_day", key))


def separate(house: TrayturnApp, key: str, tray: str | None) -> None:
    """The separation under way, or the one to begin."""
    from trayturn.tui.screens.separation.screen import SeparationScreen

    stack = house.shelf.stack(key)
    chosen = tray_to_separate(stack, tray) if stack is not None else None
    if chosen is None:
        house.say("Nothing to separate: no tray has finished.")
        return
    house.push_screen(SeparationScreen(key, chosen))


def tray_to_separate(stack: Stack, marked: str | None) -> str | None:
    """The separation under way; else the marked tray if it has finished; else the one finishing longest.

    A keeper who marks a feeding tray may separate that: keepers differ, and the next screen says what it is.
    """
    if stack.separations:
        running = [sep.tray for sep in stack.separations]
        return marked if marked in running else running[0]
    finishing = sorted(stack.in_stage(Stage.FINISHING), key=lambda tray: -tray.days_in_stage)
    if marked in [tray.id for tray in finishing] or not finishing:
        tray = stack.tray(marked) if marked else None
        return tray.id if tray is not None and tray.on_stack and tray.stage is not Stage.BEDDING else None
    return finishing[0].id


ACTS: dict[str, Callable[[TrayturnApp, str, str | None], None]] = {
    "rest": separate,
    "separation": separate,
    "turn_day": turn,
    "castings": lambda house, key, lot: go(house, "castings", key, lot),
    "turn": turn,
    "worms": lambda house, key, tray: recording.worms(house, key),
    "feed": feed,
    "follow_up": check,
    "check": check,
    "watch": lambda house, key, tray: beginning.look(house, key),
    "supplies": lambda house, key, tray: go(house, "supplies", key),
    "start": lambda house, key, tray: beginning.start(house, key),
}
"""What opens for each kind of due thing. Those that are missing are only ever marked done."""
