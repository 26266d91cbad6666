"""What is done with a lot, written down with gloves on: amounts by - and +, and Space writes."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.castings.early import TAKEN_BY, minded_taking
from trayturn.domain.lots import Lot
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import OUNCE_KG
from trayturn.tui.screens.castings.amount_rows import Weighed
from trayturn.tui.screens.castings.typing_in import Typed, example, trouble, typed
from trayturn.tui.screens.forms.form import Slip
from trayturn.tui.screens.forms.lot_forms import ACTS, entries_of
from trayturn.tui.widgets.answers import Answer, Answers, Count, Cycle, Mass, Words
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.sheet import Sheet
from trayturn.tui.widgets.type_in import TypeIn

KEYS = "Space writes it down   - + how much   Enter types it   Esc leaves"
SAVED = "Written down. u takes it back"


class LotSheet(Sheet[None]):
    """One thing done with a lot. What it writes is on disk before the sheet closes."""

    ACT: ClassVar[str] = ""
    FIRST: ClassVar[str] = ""
    """The row that is marked at first."""
    BINDINGS = [
        ("space", "write", "Write it down"),
        ("enter", "type", "Type it"),
        ("escape,q", "leave", "Leave"),
        ("plus,equals_sign", "step(1)", "More"),
        ("minus", "step(-1)", "Less"),
    ]
    DEFAULT_CSS = """
    LotSheet {
        Answers { height: auto; max-height: 7; }
        #mind { margin-top: 1; height: auto; color: $act; text-style: bold; }
        #after { margin-top: 1; height: auto; color: $quiet; }
        #wrong { height: auto; min-height: 1; color: $text-error; }
        #sheet-keys { color: $act; }
    }
    """

    def __init__(self, key: str, stack: Stack, lot: Lot) -> None:
        super().__init__(f"Lot {lot.code}: {ACTS[self.ACT].lower()}", KEYS)
        self.key, self.stack, self.lot, self.units = key, stack, lot, stack.setup.units

    def questions(self) -> list[Answer]:
        """The rows at first."""
        return []

    def values(self) -> dict[str, Any]:
        """What is answered, by the names of the form's fields."""
        return {}

    def words(self) -> list[str]:
        """What is said under the rows, of what stands in them."""
        return []

    def missing(self) -> str:
        """What is still to be answered before it can be written down; empty where nothing is."""
        return ""

    def answered(self, key: str) -> None:
        """A row was answered: what follows from it in other rows."""

    def compose_body(self) -> ComposeResult:
        yield Answers(id="answers")
        yield Static(id="mind")
        yield Static(id="after")

    def compose_foot(self) -> ComposeResult:
        yield Static(id="wrong")

    def on_mount(self) -> None:
        super().on_mount()
        self.rows.ask(self.questions())
        self.rows.mark_row(self.FIRST)
        self.set_focus(self.rows)
        minded = minded_taking(self.lot, self.stack) if self.ACT in TAKEN_BY else ""
        self.query_one("#mind", Static).update(Content(f"! {minded}"))
        self.query_one("#mind").display = bool(minded)
        self.say()

    @property
    def rows(self) -> Answers:
        return self.query_one(Answers)

    def mass(self, key: str, label: str, kg: float | None) -> Mass:
        """A mass to step; finer for what there is little of."""
        us, small = self.units is Units.US, kg is not None and kg < 0.3
        step = (OUNCE_KG if small else 2 * OUNCE_KG) if us else (0.02 if small else 0.1)
        whole = None if not kg else round(max(1, round(kg / step)) * step, 6)
        return Mass(key, label, "", whole, step, us)

    def at_most(self, key: str, label: str, kg: float, held: float | None) -> Mass:
        """A mass to step that starts no higher than what is there, kg; None where that was never weighed."""
        row = self.mass(key, label, kg)
        return row if held is None or (row.kg or 0.0) <= held else replace(row, kg=held)

    def weighed(self, key: str, label: str, likely: float | None) -> Mass:
        """A mass that nobody has weighed yet: the first step goes to what is likely."""
        row = self.mass(key, label, likely)
        return Weighed(key, label, "", None, row.step_kg, row.us, row.kg)

    def kg(self, key: str) -> float | None:
        row = self.rows.answer(key)
        return row.kg if isinstance(row, Mass) else None

    def number(self, key: str) -> int | None:
        row = self.rows.answer(key)
        return row.number if isinstance(row, Count) else None

    def place(self, key: str) -> int:
        """Which choice stands in a row, counted from 0."""
        row = self.rows.answer(key)
        return (row.chosen or 0) if isinstance(row, Cycle) else 0

    def text(self, key: str) -> str:
        row = self.rows.answer(key)
        return row.text.strip() if isinstance(row, Words) else ""

    @on(Answers.Changed)
    def _changed(self, event: Answers.Changed) -> None:
        self.answered(event.key)
        self.say()

    def say(self, wrong: str = "") -> None:
        self.query_one("#after", Static).update(Content("\n".join(self.words())))
        self.query_one("#wrong", Static).update(Content(wrong))

    def action_step(self, by: int) -> None:
        self.rows.action_step(by)

    def action_write(self) -> None:
        """Write it down, or say what cannot be."""
        if missing := self.missing():
            self.say(missing)
            return
        try:
            entries = entries_of(self.stack, self.lot, self.ACT, self.house.now, **self.values())
        except Slip as slip:
            self.say(str(slip))
            return
        if self.house.save(self.key, entries, SAVED):
            self.dismiss()

    @on(LineList.Opened)
    def action_type(self) -> None:
        """Clean hands may type the marked amount or words, in any unit; a choice goes one on."""
        row = self.rows.answers[self.rows.marked]
        if not isinstance(row, Typed):
            self.rows.action_step(1)
            return

        def keep(text: str | None) -> None:
            if text is not None:
                self.rows.put(typed(row, text, self.units))

        start, wrong = row.text if isinstance(row, Words) else "", partial(trouble, row, units=self.units)
        self.house.push_screen(TypeIn(row.label, start, example(row, self.units), wrong), keep)

    def action_leave(self) -> None:
        self.dismiss()
