"""Answers given with gloves on: rows to tick, to pick from by digit, or to step up and down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from textual.binding import Binding
from textual.message import Message

from trayturn.tui.widgets.answer_rows import HEAVIEST_KG, Answer, Count, Cycle, Mass, Pick, Tick, Words
from trayturn.tui.widgets.line_list import LineList, Row

__all__ = ["HEAVIEST_KG", "Answer", "Answers", "Count", "Cycle", "Mass", "Pick", "Tick", "Words"]


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

    def add(self, answer: Answer, before: str) -> None:
        """Put one row more before the row of that key, and mark it; nothing where that row has gone."""
        place = next((n for n, row in enumerate(self.answers) if row.key == before), None)
        if place is None:
            return
        self.rearrange((*self.answers[:place], answer, *self.answers[place:]))
        self.marked = place
        self.post_message(self.Changed(self, answer.key))

    def swap(self, key: str, answer: Answer) -> None:
        """Put another row in the place of the one of that key, and mark it."""
        self.rearrange([answer if row.key == key else row for row in self.answers])
        self.mark_row(answer.key)
        self.post_message(self.Changed(self, answer.key))

    def rearrange(self, answers: Sequence[Answer]) -> None:
        """Other rows; the mark stays on what it marks, where that is still here."""
        self.answers = tuple(answers)
        self._draw()

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
            if isinstance(marked, Pick | Count)
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
