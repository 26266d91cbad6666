"""What a screen about one tray's separation knows: the journal's own state, and what the keeper was told."""

from __future__ import annotations

from collections.abc import Sequence

from trayturn.domain.entries import Entry
from trayturn.domain.stack import Separation
from trayturn.procedure.stepper import StepView, time_words
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.separation import steps

GONE = "This bin's file cannot be read any more. Put it back or mend it; this goes on from there."


class OnTray(BinFrame):
    """One tray of a bin. `asked` is the step whose questions stand on the screen, `trouble` what is wrong.

    `unweighed` is set once the keeper was asked whether to go on without a weight, `picking` while sheets
    are open in which something is picked for a row.
    """

    def __init__(self, key: str, tray: str) -> None:
        super().__init__(key)
        self.tray = tray
        self.asked: steps.Mark | None = None
        self.trouble = ""
        self.unweighed = False
        self.picking = False

    @property
    def journal(self) -> Sequence[Entry]:
        """The bin's entries; none while its file cannot be read."""
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded.profile.journal if loaded is not None and loaded.profile is not None else ()

    @property
    def separation(self) -> Separation | None:
        """The tray's separation: the one under way, or the one this screen has just seen end."""
        stack = self.stack
        if stack is None:
            return None
        past = [s for s in stack.past_separations if s.tray == self.tray and self._seen(s)]
        return stack.separation(self.tray) or (past[-1] if past else None)

    def _seen(self, sep: Separation) -> bool:
        return self.asked is not None and self.asked[0] == sep.begun_at

    def time_words(self, shown: StepView) -> str:
        """The time left in a sentence."""
        text = time_words(shown, self.house.now)
        return text[:1].upper() + text[1:] + "."

    def say(self, words: str) -> None:
        """Say what is wrong, in the place of what the keys do."""
        self.trouble = words
        self.show_hint("")

    def show_hint(self, words: str) -> None:
        """Draw what the keys do, or what is wrong."""

    def write(self, entries: Sequence[Entry]) -> bool:
        """Save what a move writes. On trouble the answers stay as they are."""
        self.trouble = ""
        return self.house.save(self.key, entries)
