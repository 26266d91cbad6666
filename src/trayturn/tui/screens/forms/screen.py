"""The one screen that asks any form's questions."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Grid, Horizontal
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Button, Input, Static

from trayturn.domain.words import clean
from trayturn.tui.screens.forms.fields import Field
from trayturn.tui.screens.forms.form import Form, Slip
from trayturn.tui.screens.forms.pick_row import PickRow
from trayturn.tui.widgets.line_input import LineInput
from trayturn.tui.widgets.sheet import Sheet

KEYS = "Tab moves   digits pick   Enter goes on   ctrl+s saves   Esc leaves"
UNSAVED = "Nothing is saved yet. Esc once more leaves all the same."


class FormScreen(Sheet[bool]):
    """Asks, and saves. `save` gets what the form built and returns None once it is on disk, or the trouble.

    On trouble everything typed stays, to be tried again. Gives True after a save, and False when left.
    """

    CSS_PATH = "form.tcss"
    BINDINGS = [
        Binding("escape", "leave", "Leave"),
        Binding("ctrl+s", "save", "Save"),
        Binding("up", "move(-1)", "Up", show=False),
        Binding("down", "move(1)", "Down", show=False),
    ]

    def __init__(self, form: Form, save: Callable[[Any], str | None]) -> None:
        super().__init__(form.title, KEYS)
        self.form, self.save = form, save
        self.wrong: dict[str, str] = {}
        self._asked_more = False
        self._warned = False

    def compose_body(self) -> ComposeResult:
        yield Static(Content(self.form.intro), id="intro")
        with Grid(id="fields"):
            yield from self._rows(field for field in self.form.fields if not field.more)
        if self.form.aside is not None:
            yield Static(id="aside")
        with Horizontal(id="buttons"):
            yield Button(self.form.save_word, id="save", compact=True)
            if any(field.more for field in self.form.fields):
                yield Button("More questions", id="more", compact=True)

    def compose_foot(self) -> ComposeResult:
        yield Static(id="trouble")

    def _rows(self, fields: Iterable[Field]) -> Iterable[Widget]:
        for field in fields:
            yield Static(Content(field.label), id=f"label-{field.name}", classes="label")
            if field.kind == "pick":
                yield PickRow(field.options, field.default, id=_id(field))
            else:
                yield LineInput(field.default, field.hint, id=_id(field))
            yield Static(id=f"wrong-{field.name}", classes="wrong")

    def on_mount(self) -> None:
        self._show_what_is_asked()
        here = (f for f in self._shown if f.here or (not f.default and f.required))
        first = next(here, None)
        # At once, not when the app comes round to it: the first letters typed must not fall between.
        self.set_focus(self._widget(first or next(iter(self._shown))))

    @property
    def _on_sheet(self) -> list[Field]:
        return [field for field in self.form.fields if self._asked_more or not field.more]

    @property
    def _shown(self) -> list[Field]:
        texts = self.texts
        return [field for field in self._on_sheet if self.form.is_asked(field, texts)]

    def _show_what_is_asked(self) -> None:
        """Other questions stand in the form by what was picked; what was typed in those before is kept."""
        shown = self._shown
        for field in self._on_sheet:
            if field.asked is None:
                continue
            for query in (f"#label-{field.name}", f"#{_id(field)}"):
                self.query_one(query).display = field in shown
            if field not in shown:
                self._mark(field, "")
        self._say_aside()

    def _say_aside(self) -> None:
        if self.form.aside is None:
            return
        words, aside = self.form.aside(self.texts, self.house.now), self.query_one("#aside", Static)
        aside.update(Content(words))
        aside.display = bool(words)

    def _widget(self, field: Field) -> LineInput | PickRow:
        found = self.query_one(f"#{_id(field)}")
        assert isinstance(found, LineInput | PickRow)
        return found

    @property
    def texts(self) -> dict[str, str]:
        """What stands in the form, by field name."""
        return {field.name: self._widget(field).value for field in self._on_sheet}

    def on_descendant_blur(self, event: events.DescendantBlur) -> None:
        """A field that was left with something in it is looked at once."""
        field = next((f for f in self._shown if _id(f) == event.widget.id), None)
        if field is not None and self._widget(field).value:
            self._look_at([field])

    def on_input_changed(self, event: Input.Changed) -> None:
        self._recheck(event.input)

    def on_pick_row_changed(self, event: PickRow.Changed) -> None:
        self._recheck(event.row)

    def _recheck(self, widget: Widget) -> None:
        """What was wrong is said until it is right."""
        self._warned = False
        self._say("")
        self._look_at([f for f in self._shown if _id(f) == widget.id and f.name in self.wrong])
        self._show_what_is_asked()

    def _look_at(self, fields: Iterable[Field]) -> dict[str, Any]:
        """Read the form, and say beside these fields what is wrong with them. Returns what could be read."""
        values, wrong = self.form.read_all(self.texts, self.house.now)
        for field in fields:
            self._mark(field, wrong.get(field.name, ""))
        return values

    def _mark(self, field: Field, words: str) -> None:
        """Say beside the field what is wrong with it, or that nothing is any more."""
        self.wrong.pop(field.name, None)
        if words:
            self.wrong[field.name] = words
        line = self.query_one(f"#wrong-{field.name}", Static)
        line.update(Content(f"! {clean(words)}" if words else ""))
        line.set_class(bool(words), "-shown")

    def _lead_back(self) -> None:
        """To the first field that is wrong."""
        self._widget(next(f for f in self._shown if f.name in self.wrong)).focus()
        self._say("Not saved yet: look at the line marked with an exclamation mark.")

    def _say(self, words: str) -> None:
        trouble = self.query_one("#trouble", Static)
        trouble.update(Content(clean(words)))
        trouble.set_class(bool(words), "-shown")

    def action_move(self, by: int) -> None:
        if by > 0:
            self.focus_next()
        else:
            self.focus_previous()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        self._go_on(event.input)

    def on_pick_row_submitted(self, event: PickRow.Submitted) -> None:
        self._go_on(event.row)

    def _go_on(self, widget: Widget) -> None:
        """On to the next question; after the last one, save."""
        ids = [_id(field) for field in self._shown]
        if widget.id == ids[-1]:
            self.action_save()
        else:
            self.focus_next()

    async def on_button_pressed(self, event: Button.Pressed) -> None:
        if event.button.id == "save":
            self.action_save()
        else:
            await self._ask_more()

    async def _ask_more(self) -> None:
        """Open the questions behind the form."""
        more = [field for field in self.form.fields if field.more]
        await self.query_one("#fields").mount(*self._rows(more))
        self._asked_more = True
        await self.query_one("#more").remove()
        self._widget(more[0]).focus()

    def action_save(self) -> None:
        """Hand on what was built; a slip is told beside its field, and nothing typed is lost."""
        values = self._look_at(self._shown)
        if self.wrong:
            self._lead_back()
            return
        try:
            built = self.form.build(values, self.house.now)
        except ValueError as slip:
            self._tell(slip)
            return
        try:
            trouble = self.save(built)
        except Slip as slip:
            self._tell(slip)
            return
        if trouble is None:
            self.dismiss(True)
        else:
            self._say(trouble)

    def _tell(self, slip: ValueError) -> None:
        """Beside its field, where it has one."""
        field = next((f for f in self._shown if isinstance(slip, Slip) and f.name == slip.field), None)
        if field is None:
            self._say(str(slip))
        else:
            self._mark(field, str(slip))
            self._lead_back()

    def action_leave(self) -> None:
        """What was typed is not thrown away by one slip of a finger."""
        untouched = all(self._widget(field).value == field.default for field in self._on_sheet)
        if untouched or self._warned:
            self.dismiss(False)
        else:
            self._warned = True
            self._say(UNSAVED)


def _id(field: Field) -> str:
    return f"field-{field.name}"
