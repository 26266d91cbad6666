"""Answers given with gloves on: rows to tick, to pick from by digit, or to step a mass up and down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from textual.binding import Binding
from textual.message import Message

from trayturn.tui.widgets.line_list import LineList, Row, Span

HEAVIEST_KG = 1000.0


@dataclass(frozen=True, slots=True)
class Answer:
    """One row: its key and its label, and a note that says what it is for."""

    key: str
    label: str
    note: str = ""

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        """The row as drawn, its label in a column of that width."""
        return ((f"{self.label:<{width}}", "plain"),)

    def stepped(self, by: int) -> Answer:
        """The row one step on or back."""
        return self

    def picked(self, digit: int) -> Answer:
        """The row with its choice of that digit, from 1."""
        return self


@dataclass(frozen=True, slots=True)
class Tick(Answer):
    """Done or not done. `more` is the reason behind the note, for a wide window."""

    ticked: bool = False
    more: str = ""

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        done = "[x]" if ascii_only else "[✓]"
        return (
            (f"{done if self.ticked else '[ ]'} ", "fine" if self.ticked else "act"),
            (self.label, "plain"),
        )

    def stepped(self, by: int) -> Answer:
        return replace(self, ticked=by > 0)


@dataclass(frozen=True, slots=True)
class Pick(Answer):
    """One of a few choices. `chosen` counts from 0 and is None until the keeper has chosen."""

    options: tuple[str, ...] = ()
    chosen: int | None = None

    @property
    def value(self) -> str | None:
        return None if self.chosen is None else self.options[self.chosen]

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        spans: list[Span] = [(f"{self.label:<{width}}", "muted")]
        for n, option in enumerate(self.options):
            is_chosen = n == self.chosen
            text = f"[{n + 1} {option}]" if is_chosen else f" {n + 1} {option} "
            spans.append((text, "strong" if is_chosen else "plain"))
        return tuple(spans)

    def stepped(self, by: int) -> Answer:
        last = len(self.options) - 1
        return replace(self, chosen=0 if self.chosen is None else max(0, min(last, self.chosen + by)))

    def picked(self, digit: int) -> Answer:
        return replace(self, chosen=digit - 1) if 1 <= digit <= len(self.options) else self


@dataclass(frozen=True, slots=True)
class Cycle(Pick):
    """One of several longer choices, of which only the chosen one is written out."""

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        left, right = ("<", ">") if ascii_only else ("‹", "›")
        return ((f"{self.label:<{width}}", "muted"), (f"{left} {self.value or 'choose'} {right}", "strong"))


@dataclass(frozen=True, slots=True)
class Mass(Answer):
    """A mass in steps. `kg` is None while it is not weighed; `us` shows it in ounces and pounds."""

    kg: float | None = None
    step_kg: float = 0.1
    us: bool = False

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        from trayturn.domain.setup import Units
        from trayturn.domain.units import show_mass

        shown = (
            "not weighed" if self.kg is None else show_mass(self.kg, Units.US if self.us else Units.METRIC)
        )
        return (
            (f"{self.label:<{width}}", "muted"),
            (f"-  {shown}  +", "strong"),
        )

    def stepped(self, by: int) -> Answer:
        kg = min((self.kg or 0.0) + by * self.step_kg, HEAVIEST_KG)
        return replace(self, kg=round(kg, 6) if kg > self.step_kg / 2 else None)


@dataclass(frozen=True, slots=True)
class Words(Answer):
    """Free words, typed with clean hands after Enter."""

    text: str = ""

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        from trayturn.domain.words import clean

        shown = clean(self.text, 40) if self.text else "none"
        return (
            (f"{self.label:<{width}}", "muted"),
            (shown, "strong" if self.text else "plain"),
        )


class Answers(LineList):
    """Rows of answers with one marked. Up and down move, left and right (or - and +) step, digits pick.

    `answers` holds the rows as answered so far; the screen reads them when the step is done.
    """

    BINDINGS = [
        Binding("left", "step(-1)", "Less", show=False),
        Binding("right", "step(1)", "More", show=False),
        *(Binding(str(digit), f"pick({digit})", str(digit), show=False) for digit in range(1, 10)),
    ]

    class Changed(Message):
        """An answer changed."""

        def __init__(self, answers: Answers, key: str) -> None:
            super().__init__()
            self.answers, self.key = answers, key

        @property
        def control(self) -> Answers:
            return self.answers

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.answers: tuple[Answer, ...] = ()

    def ask(self, answers: Sequence[Answer]) -> None:
        """Put these questions, the first one marked."""
        self.answers = tuple(answers)
        self._draw()
        self.marked = 0

    def answer(self, key: str) -> Answer | None:
        """The row of that key, as it stands."""
        return next((answer for answer in self.answers if answer.key == key), None)

    def put(self, answer: Answer) -> None:
        """Replace the row that has this answer's key."""
        self.answers = tuple(answer if row.key == answer.key else row for row in self.answers)
        self._draw()
        self.post_message(self.Changed(self, answer.key))

    def marked_note(self, *, with_more: bool = False) -> str:
        """What the marked row is for, and the reason behind it where there is room."""
        row = self.answers[self.marked] if self.answers else None
        more = row.more if with_more and isinstance(row, Tick) else ""
        return f"{row.note}\n\n{more}" if row and more else row.note if row else ""

    def tick_next(self) -> bool:
        """Tick the next open row; False when all are ticked."""
        rows = [*self.answers[self.marked :], *self.answers[: self.marked]]
        waiting = next((row for row in rows if isinstance(row, Tick) and not row.ticked), None)
        if waiting is None:
            return False
        self.put(replace(waiting, ticked=True))
        keys = [row.key for row in self.answers]
        self.marked = min(keys.index(waiting.key) + 1, len(keys) - 1)
        return True

    @property
    def all_ticked(self) -> bool:
        return all(row.ticked for row in self.answers if isinstance(row, Tick))

    def action_step(self, by: int) -> None:
        if self.answers:
            self.put(self.answers[self.marked].stepped(by))

    def action_pick(self, digit: int) -> None:
        """A digit answers the marked row, or the first one that has choices."""
        marked = self.answers[self.marked] if self.answers else None
        row = (
            marked
            if isinstance(marked, Pick)
            else next((a for a in self.answers if isinstance(a, Pick)), None)
        )
        if row is not None:
            self.put(row.picked(digit))
            return
        if 1 <= digit <= len(self.answers) and isinstance(tick := self.answers[digit - 1], Tick):
            self.put(replace(tick, ticked=not tick.ticked))

    def _draw(self) -> None:
        ascii_only = bool(getattr(self.app, "ascii", False))
        width = max((len(row.label) for row in self.answers if not isinstance(row, Tick)), default=0) + 2
        self.show([Row((row.spans(width, ascii_only),), row.key) for row in self.answers])
