"""How readings are given on the check screen: stepped, picked, typed in their row, or ticked."""

from __future__ import annotations

from typing import Any

from textual import events, on, work
from textual.widgets import Input

from trayturn.advice.checking.history import checks_of
from trayturn.advice.checking.kinds import Kind, Value
from trayturn.advice.checking.scene import Scene
from trayturn.advice.pantry import pantry_of
from trayturn.domain.entries import Pest
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.check import stepping, typed
from trayturn.tui.screens.check.draft import Draft
from trayturn.tui.screens.check.pests import PestSheet
from trayturn.tui.screens.check.rows import LABEL
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.over_row import OverRow


class Taking(BinFrame):
    """A screen with a list of readings, one marked, and a draft for each tray and for the whole bin."""

    def __init__(self, key: str, tray: str | None = None) -> None:
        super().__init__(key)
        self.tray = tray
        self.drafts: dict[str | None, Draft] = {}

    @property
    def readings(self) -> LineList:
        return self.query_one("#readings", LineList)

    @property
    def typing(self) -> OverRow:
        return self.query_one("#typing", OverRow)

    @property
    def is_typing(self) -> bool:
        return self.is_mounted and self.typing.is_open

    @property
    def draft(self) -> Draft:
        """The readings being taken of this tray."""
        return self.drafts.setdefault(self.tray, Draft())

    @property
    def kind(self) -> Kind | None:
        """The marked reading; None on the way to the typed form."""
        key = self.readings.marked_key
        return Kind(key) if key in list(Kind) else None

    @property
    def scene(self) -> Scene | None:
        """What is read against; None while the bin cannot be read."""
        stack, loaded = self.stack, self.house.shelf.loaded.get(self.key)
        if stack is None or loaded is None or loaded.profile is None or loaded.read_only:
            return None
        kept, tray = self.house.shelf.kept, stack.tray(self.tray) if self.tray else None
        return Scene(stack, tray, kept(loaded.profile, checks_of), kept(loaded.profile, pantry_of))

    def touched(self) -> None:
        """Something was answered: draw it."""

    def _put(self, kind: Kind, value: Value | None) -> None:
        self.draft.put(kind, value)
        self.touched()

    def action_more(self) -> None:
        self._step(1)

    def action_less(self) -> None:
        self._step(-1)

    def _step(self, by: int) -> None:
        scene, kind = self.scene, self.kind
        if kind is Kind.PESTS:
            self._tick_pests()
        elif scene is not None and kind is not None:
            seen = self.draft.seen_in(scene)
            self._put(kind, stepping.stepped(kind, self.draft.values.get(kind), by, seen))

    def action_pick(self, digit: int) -> None:
        """A digit answers the marked row; 0 clears it."""
        scene, kind = self.scene, self.kind
        if scene is None or kind is None:
            return
        doubt = self.draft.doubts(scene).get(kind)
        value = stepping.picked(kind, digit, doubt, scene)
        if digit == 0:
            self._put(kind, None)
        elif digit == stepping.KEEP and doubt is not None and not doubt.impossible:
            self.draft.insisted.add(kind)
            self.touched()
        elif value == stepping.OTHER:
            self.action_enter()
        elif value == stepping.DRIED:
            self._weigh_a_sample()
        elif value is not None:
            self._put(kind, value)

    @on(LineList.Opened)
    def action_enter(self) -> None:
        """Type the marked reading in its row, tick what was seen, or open the form."""
        scene, kind = self.scene, self.kind
        if scene is None:
            return
        if kind is None:
            self.action_typed_check()
        elif kind is Kind.PESTS:
            self._tick_pests()
        else:
            text = self.draft.texts.get(kind, "")
            self.typing.lay_over(self.readings, LABEL, text, typed.example(kind, scene.units))
            self.touched()

    def on_input_changed(self, event: Input.Changed) -> None:
        """What is wrong with it is said while it is typed, beside the row."""
        scene, kind = self.scene, self.kind
        if scene is not None and kind is not None and self.is_typing:
            self.draft.type(kind, event.value, scene)
            self.touched()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Kept where it can be read; otherwise the line stays, with what is wrong with it."""
        scene, kind = self.scene, self.kind
        if scene is None or kind is None:
            return
        doubt = self.draft.doubts(scene).get(kind)
        if kind not in self.draft.faults and not (doubt is not None and doubt.impossible):
            self.action_stop_typing()

    def action_stop_typing(self) -> None:
        """Back to the list. What was typed stays in its row, with what is wrong with it."""
        if self.is_typing:
            self.typing.display = False
            self.readings.focus()
            self.touched()

    def on_descendant_blur(self, event: events.DescendantBlur) -> None:
        if event.widget is self.typing and self.app.screen is self:
            self.action_stop_typing()

    @work
    async def _tick_pests(self) -> None:
        now = self.draft.values.get(Kind.PESTS, ())
        ticked: tuple[Pest, ...] = now if isinstance(now, tuple) else ()
        seen = await self.app.push_screen_wait(PestSheet(ticked))
        if seen is not None:
            self._put(Kind.PESTS, seen or None)

    def _weigh_a_sample(self) -> None:
        """Ask for the weights of a sample wet and dried, and take its moisture."""
        from trayturn.tui.screens.forms.sample_form import sample_form
        from trayturn.tui.screens.forms.screen import FormScreen

        def take(percent: Any) -> None:
            self._put(Kind.MOISTURE, percent)

        if (stack := self.stack) is not None:
            self.house.push_screen(FormScreen(sample_form(stack.setup.units), take))

    def action_typed_check(self) -> None:
        """The form for a check of another day, or with a note."""
        from trayturn.tui.screens.stack import recording

        recording.check(self.house, self.key, self.tray)
