"""Worms moved to another bin from the form: both profiles written, and what it comes to told."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trayturn.advice.pages import Page
from trayturn.advice.splitting import split_advice
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean
from trayturn.procedure.splitting import CannotSplit
from trayturn.storage.errors import NameRefused, StorageError
from trayturn.tui import moving
from trayturn.tui.screens.forms.definitions import Moving
from trayturn.tui.screens.forms.form import Slip
from trayturn.tui.widgets.reason import ReasonScreen

if TYPE_CHECKING:
    from trayturn.tui.app import TrayturnApp

UNDO = "u takes it back in both bins, as long as neither has gone on."


def move_worms(house: TrayturnApp, key: str, asked: Moving) -> str | None:
    """Write the move down; None once both files have it, or the trouble. Raises `Slip` for one of a field."""
    stack = house.shelf.stack(key)
    other = house.shelf.stack(asked.to) if asked.to is not None else None
    try:
        to = moving.move(house.shelf, key, asked.split, asked.to, asked.name)
    except CannotSplit as slip:
        raise Slip(slip.about, str(slip)) from None
    except NameRefused as slip:
        raise Slip("name", str(slip)) from None
    except StorageError as trouble:
        return str(trouble)
    house.written.append(key)
    house.tell(key)
    house.tell(to)
    if stack is not None:
        house.call_later(_tell, house, stack, other, asked)
    return None


def _tell(house: TrayturnApp, stack: Stack, other: Stack | None, asked: Moving) -> None:
    """What it comes to, over the screen that the form leads back to."""
    name = other.setup.name if other is not None else asked.name
    what = asked.split
    mass = show_mass(what.worms_kg, stack.setup.units)
    along = f" with tray {what.along}" if what.along else ""
    advice = split_advice(stack, other, name, what.worms_kg, what.counted)
    first = (
        (f"{clean(name, 40)} has no tray yet: open it, and Space leads on.",) if not (other or along) else ()
    )
    told = [line for why in (UNDO, *first, *advice.lines) for line in (why, "")]
    title = f"{mass} of worms moved{along} to {clean(name, 40)}"
    house.push_screen(ReasonScreen(title, told[:-1], Page.SPLITTING))
