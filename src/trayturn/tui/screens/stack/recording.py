"""Writing things down from the stack screen: each opens its form and saves what it builds."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from trayturn.advice.asking import must_read
from trayturn.advice.starting import next_work, starting_plan
from trayturn.domain.entries import Fed, Stage
from trayturn.storage.errors import StorageError
from trayturn.tui.moving import others
from trayturn.tui.screens.cautions.sheet import CautionsSheet
from trayturn.tui.screens.forms import definitions as forms
from trayturn.tui.screens.forms.form import Form
from trayturn.tui.screens.forms.screen import FormScreen
from trayturn.tui.screens.stack.moving import move_worms

if TYPE_CHECKING:
    from trayturn.domain.entries import Entry
    from trayturn.tui.app import TrayturnApp


GRIT_FIRST = "Read the cautions about grit first; then this is saved."


def ask(house: TrayturnApp, key: str, form: Form, said: str) -> None:
    """Open the form; what it builds is on disk before it closes, or the form stays and says why not."""

    def save(entries: Sequence[Entry] | forms.Moving) -> str | None:
        """On disk, or why not; grit is handled once its cautions are read."""
        if isinstance(entries, forms.Moving):
            return move_worms(house, key, entries)
        if _handles_grit(entries) and _must_read(house, key):
            house.push_screen(CautionsSheet(key, "grit"), lambda done: screen.action_save() if done else None)
            return GRIT_FIRST
        try:
            house.shelf.save(key, entries)
        except StorageError as trouble:
            return str(trouble)
        house.written.append(key)
        house.tell(key)
        house.say(said)
        return None

    screen = FormScreen(form, save)
    house.push_screen(screen)


def _handles_grit(entries: Sequence[Entry]) -> bool:
    return any(isinstance(entry, Fed) and entry.grit_kg for entry in entries)


def _must_read(house: TrayturnApp, key: str) -> bool:
    stack = house.shelf.stack(key)
    return stack is not None and must_read(stack, "grit", house.now)


def feed(house: TrayturnApp, key: str, tray: str | None) -> None:
    """A feeding, of the tray that is due unless a fed tray is marked."""
    if (stack := house.shelf.stack(key)) is not None:
        marked = stack.tray(tray) if tray else None
        fed = marked.id if marked is not None and marked.stage is Stage.FEEDING else None
        form = forms.feed_form(stack, forms.last_feeding(_journal(house, key)), fed)
        ask(house, key, form, "Feeding saved. u takes it back")


def check(house: TrayturnApp, key: str, tray: str | None) -> None:
    """Readings of another day, typed, of the marked tray."""
    if (stack := house.shelf.stack(key)) is not None:
        ask(house, key, forms.check_form(stack, tray), "Readings saved. u takes them back")


def note(house: TrayturnApp, key: str) -> None:
    """A note in the keeper's own words."""
    if (stack := house.shelf.stack(key)) is not None:
        ask(house, key, forms.note_form(stack), "Note saved. u takes it back")


def start_tray(house: TrayturnApp, key: str) -> None:
    """A tray with fresh bedding; the first one with what the plan says."""
    profile = house.shelf.loaded[key].profile
    if (stack := house.shelf.stack(key)) is None or profile is None:
        return
    form = forms.start_form(stack, profile.trays)
    if stack.first_tray_at is None:
        plan = starting_plan(stack)
        form = forms.start_form(stack, profile.trays, plan.bedding, plan.water_kg.mid)
    ask(house, key, form, "Tray added. u takes it off")


def worms(house: TrayturnApp, key: str, way: str = "in") -> None:
    """Worms in, out, or to another bin; the first ones with the weight that the plan says."""
    if (stack := house.shelf.stack(key)) is None:
        return
    planned = starting_plan(stack).worms_kg if next_work(stack) == "worms" and way == "in" else None
    form = forms.worms_form(stack, others(house.shelf, key), way, planned)
    ask(house, key, form, "Worms saved. u takes it back")


def supplies(house: TrayturnApp, key: str, way: str) -> None:
    """Supplies by name: what came in, was counted or went."""
    if (stack := house.shelf.stack(key)) is not None:
        ask(house, key, forms.supplies_form(stack, way), "Supplies saved. u takes it back")


def found(house: TrayturnApp, key: str, source: str = "") -> None:
    """What does not belong, with what it came in with."""
    if (stack := house.shelf.stack(key)) is not None:
        ask(house, key, forms.found_form(stack, source), "Written down. u takes it back")


def _journal(house: TrayturnApp, key: str) -> Sequence[Entry]:
    profile = house.shelf.loaded[key].profile
    return profile.journal if profile is not None else ()
