"""Rows of answers that can be given with gloves on: each knows how it is drawn, stepped and picked."""

from __future__ import annotations

from dataclasses import dataclass, replace

from trayturn.tui.widgets.line_list import Span

HEAVIEST_KG = 1000.0
MOST = 100_000


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
class Count(Answer):
    """A number in steps; a digit gives it at once where steps are of one. `number` is None until counted.

    `after` follows the number, `uncounted` stands in its place; it is never above `most`.
    """

    number: int | None = None
    step: int = 1
    after: str = ""
    uncounted: str = "not counted"
    most: int = MOST

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        shown = self.uncounted if self.number is None else f"{self.number:,}{self.after}"
        return ((f"{self.label:<{width}}", "muted"), (f"-  {shown}  +", "strong"))

    def stepped(self, by: int) -> Answer:
        return replace(self, number=max(0, min(self.most, (self.number or 0) + by * self.step)))

    def picked(self, digit: int) -> Answer:
        return replace(self, number=digit) if self.step == 1 else self


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
