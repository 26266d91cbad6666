"""Making, copying, renaming and putting away bins."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from trayturn.storage import managing
from trayturn.storage.errors import StorageError
from trayturn.tui.screens.forms import definitions as forms
from trayturn.tui.screens.forms.screen import FormScreen

if TYPE_CHECKING:
    from trayturn.storage.reading import Loaded
    from trayturn.tui.app import TrayturnApp


def _tried(house: TrayturnApp, work: Callable[[], Loaded], said: str) -> str | None:
    """Do it; what was written is shown, and trouble comes back as its sentence."""
    try:
        loaded = work()
    except StorageError as trouble:
        return str(trouble)
    house.shelf.put(loaded)
    house.tell(loaded.key)
    house.say(said)
    return None


def make_bin(house: TrayturnApp) -> None:
    """Ask a few questions and make a profile; its own screen says what it begins with."""
    made: list[str] = []

    def save(asked: forms.NewBin) -> str | None:
        def create() -> Loaded:
            loaded = managing.create(house.shelf.home, asked.setup, asked.trays)
            made.append(loaded.key)
            return loaded

        return _tried(house, create, "The bin has its profile.")

    def open_it(saved: bool | None) -> None:
        if saved:
            house.open_bin(made[-1])

    house.push_screen(FormScreen(forms.new_bin_form(), save), open_it)


def change_bin(house: TrayturnApp, key: str) -> None:
    """Give the bin another shown name, or other figures."""
    loaded = house.shelf.loaded[key]
    if loaded.profile is None:
        return

    def save(figures: dict[str, object]) -> str | None:
        return _tried(house, lambda: managing.change(loaded, figures, house.now), "The bin is changed.")

    house.push_screen(FormScreen(forms.change_form(loaded.profile.bin), save))


def copy_bin(house: TrayturnApp, key: str) -> None:
    """Copy the bin with its journal under another name."""
    loaded = house.shelf.loaded[key]
    if loaded.profile is None:
        return

    def save(name: str) -> str | None:
        return _tried(house, lambda: managing.copy(loaded, house.shelf.home, name), "The copy is made.")

    house.push_screen(FormScreen(forms.copy_form(loaded.profile.bin.name), save))


def archive_bin(house: TrayturnApp, key: str) -> None:
    """Put the bin away. Its file is kept in the archive folder, and `u` on this screen brings it back."""
    loaded = house.shelf.loaded[key]
    try:
        path = managing.archive(loaded, house.shelf.home)
    except StorageError as trouble:
        house.warn(str(trouble))
        return
    house.shelf.forget(key)
    house.archived.append(path)
    house.tell("")
    house.say(f"Put away in {managing.ARCHIVE}/{path.name}. u brings it back")


def undo_last(house: TrayturnApp) -> None:
    """Take back what was done last since the program was opened, in whichever bin that was.

    What was done before that is taken back on the bin's own screen, where it is in sight.
    """
    if house.archived:
        _bring_back(house)
    elif house.written:
        house.undo(house.written[-1])


def _bring_back(house: TrayturnApp) -> None:
    try:
        path = managing.unarchive(house.archived[-1], house.shelf.home)
    except StorageError as trouble:
        house.warn(str(trouble))
        return
    house.archived.pop()
    for _ in house.shelf.read(path):
        pass
    house.tell(path.stem)
    house.say(f"{path.stem} is back")
