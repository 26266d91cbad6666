"""Adding an ingredient: a few letters, the names that may be meant, and then how much of it."""

from __future__ import annotations

import re

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static

from trayturn.advice.composing import steps
from trayturn.advice.composing.draft import Line
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.larder import Larder, Suggestion, part_named
from trayturn.domain.units import UnitError, show_mass
from trayturn.domain.words import clean
from trayturn.tui.screens.feed.rows import suggestion_rows
from trayturn.tui.widgets.line_input import LineInput
from trayturn.tui.widgets.line_list import LineList

USUAL_KG = 0.1
"""What is offered of a thing that was never fed. Our choice."""
BOTH = re.compile(r"(?P<name>.*?\S)(?:\s*=\s*|\s+)(?P<amount>(?:[\d.,½]+|an?|half)\s*[^\d=]+)", re.IGNORECASE)
"""A name with its amount behind it: `cabbage 300 g`, `apple=2 handfuls`."""


NAME_KEYS, AMOUNT_KEYS = "Enter takes it   Up, Down   Esc: done", "Enter adds it   + and - step   Esc: back"


class AddInput(LineInput):
    """The line to type in. While an amount is asked for, + and - step it: no amount needs them."""

    stepping = False

    class Stepped(Message):
        """More or less was asked for."""

        def __init__(self, by: int) -> None:
            super().__init__()
            self.by = by

    async def _on_key(self, event: events.Key) -> None:
        if self.stepping and event.character in ("+", "=", "-"):
            event.stop()
            event.prevent_default()
            self.post_message(self.Stepped(-1 if event.character == "-" else 1))
            return
        await super()._on_key(event)


class AddPanel(Vertical):
    """Stands where the meal stands while something is added to it. `line` is what would be added now."""

    BINDINGS = [
        Binding("up", "move(-1)", "Up", show=False),
        Binding("down", "move(1)", "Down", show=False),
    ]

    class Tried(Message):
        """The amount is another: the figures are to follow. `line` is None where it cannot be read."""

        def __init__(self, line: Line | None) -> None:
            super().__init__()
            self.line = line

    class Added(Message):
        """A line was taken into the meal."""

        def __init__(self, line: Line) -> None:
            super().__init__()
            self.line = line

    class Left(Message):
        """Nothing more is to be added."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.ground: Ground | None = None
        self.larder: Larder | None = None
        self.taken: Suggestion | None = None
        self.found: list[Suggestion] = []

    def compose(self) -> ComposeResult:
        yield Static(id="asked")
        yield AddInput(id="typed")
        yield Static(id="slip")
        yield LineList(id="names")
        yield Static(id="said")
        yield Static(id="add-keys")

    def begin(self, ground: Ground, larder: Larder, words: str = "Add what? Type a few letters.") -> None:
        """Ask for a name."""
        self.ground, self.larder, self.taken = ground, larder, None
        self._ask(words, "")
        self._suggest("")

    @property
    def _typed(self) -> AddInput:
        return self.query_one(AddInput)

    def _ask(self, words: str, value: str) -> None:
        self._put("#asked", words)
        self._put("#add-keys", AMOUNT_KEYS if self.taken is not None else NAME_KEYS)
        self._slip("")
        line = self._typed
        line.stepping = self.taken is not None
        with self.prevent(Input.Changed):
            line.value = value
        line.cursor_position = len(value)
        if self.taken is not None:
            line.select_all()
        line.focus()

    def _slip(self, words: str) -> None:
        self._put("#slip", clean(words))

    def _put(self, where: str, words: str) -> None:
        """Words in a text of fixed size: nothing around it is to be laid out anew."""
        text = self.query_one(where, Static)
        if str(text.content) != words:
            text.update(Content(words), layout=False)

    @on(Input.Changed)
    def _follow(self, event: Input.Changed) -> None:
        event.stop()
        self._slip("")
        if self.taken is None:
            self._suggest(event.value)
        else:
            self.post_message(self.Tried(self._line(quiet=True)))

    def _suggest(self, text: str) -> None:
        if self.larder is None or self.ground is None:
            return
        whole = BOTH.fullmatch(text.strip())
        self.found = self.larder.suggest(whole["name"] if whole else text)
        names = self.query_one("#names", LineList)
        names.show(suggestion_rows(self.found, self.ground, names.scrollable_content_region.width - 1))
        names.mark_first()
        self._say()

    @on(LineList.Marked)
    def _say(self) -> None:
        """What is said of the marked name."""
        one = self._marked()
        reason = "" if one is None or one.origin == "new" else one.reason
        self._put("#said", f"{reason[:1].upper()}{reason[1:]}")

    def _marked(self) -> Suggestion | None:
        place = self.query_one("#names", LineList).marked
        return self.found[place] if place < len(self.found) else None

    def action_move(self, by: int) -> None:
        """Another name; or more or less, while the amount is asked for."""
        if self.taken is None:
            self.query_one("#names", LineList).action_move(by)
        else:
            self._step(-by)

    @on(AddInput.Stepped)
    def _stepped(self, event: AddInput.Stepped) -> None:
        event.stop()
        self._step(event.by)

    def _step(self, by: int) -> None:
        line, ground = self._line(quiet=True), self.ground
        if line is None or ground is None:
            return
        step = steps.more if by > 0 else steps.less
        self._typed.value = show_mass(step(line.kg, ground.units), ground.units)

    @on(Input.Submitted)
    def _go_on(self, event: Input.Submitted) -> None:
        event.stop()
        if self.taken is not None:
            self._take_amount()
        elif not event.value.strip():
            self.post_message(self.Left())
        else:
            self._take_name(event.value)

    @on(LineList.Opened)
    def _clicked(self) -> None:
        self._take_name(self._typed.value)

    def _take_name(self, text: str) -> None:
        one, ground = self._marked(), self.ground
        if one is None or ground is None:
            return
        self.taken = one
        whole = BOTH.fullmatch(text.strip())
        last = one.last_kg or USUAL_KG
        amount = whole["amount"] if whole else show_mass(last, ground.units)
        self._ask(f"How much {clean(one.name, 26)}?", amount)
        self._put("#said", f"such as {ground.measures.hint()}")
        if whole:
            self._take_amount()
        else:
            self.post_message(self.Tried(self._line(quiet=True)))

    def back(self) -> bool:
        """From the amount back to the name, which still stands there; False where that is asked for now."""
        if self.taken is None:
            return False
        name, self.taken = self.taken.name, None
        self._ask("Add what? Type a few letters.", name)
        self._suggest(name)
        self.post_message(self.Tried(None))
        return True

    def _take_amount(self) -> None:
        line = self._line()
        if line is not None and self.ground is not None and self.larder is not None:
            self.post_message(self.Added(line))

    def _line(self, *, quiet: bool = False) -> Line | None:
        """The line as it is typed; what is wrong with it is said, unless it is still being typed."""
        one, ground = self.taken, self.ground
        if one is None or ground is None:
            return None
        try:
            amount = ground.measures.read(self._typed.value, one.name, ground.most_kg)
        except UnitError as slip:
            if not quiet:
                self._slip(str(slip))
            return None
        part = part_named(one.name, ground.pantry) if one.origin == "new" else one.part
        return Line(part, one.name, amount.kg, amount.measure)
