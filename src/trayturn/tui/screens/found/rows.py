"""What was found as rows to draw: what each is, in a word, and the little there is room for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from textwrap import wrap

from trayturn.advice.found.overs import Going, Went, going_round, went
from trayturn.advice.found.sources import Noted, Source, State, noted, sources
from trayturn.advice.found.words import (
    amount_words,
    noted_story,
    noted_words,
    over_name,
    over_story,
    source_name,
    source_story,
    went_words,
)
from trayturn.advice.pantry import Pantry
from trayturn.domain.stack import Stack, days_between
from trayturn.domain.supplies import fold
from trayturn.domain.words import as_read, clean, count
from trayturn.tui.widgets.line_list import Row, Span

WORD, NAME, BIN, BESIDE_BIN = 12, 28, 12, 24
"""Widths of the columns: what it is, its name, its bin where there are several, and the name beside it."""
LEAST = 20
"""How narrow the rest is wrapped at most."""
STATES = {
    State.OPEN: ("! source", "act"),
    State.AGAIN: ("! again", "error"),
    State.STOPPED: ("stopped", "fine"),
    State.UNKNOWN: ("source ?", "muted"),
}


About = Going | Source | Went | Noted
"""What a row may stand for."""


@dataclass(frozen=True, slots=True)
class Item:
    """One row: of which bin, what it stands for, and its key."""

    key: str
    stack: Stack
    about: About

    @property
    def title(self) -> str:
        """What it is called."""
        match self.about:
            case Going() as one:
                return clean(one.over.what, 60)
            case Source() as one:
                return source_name(one)
            case Went() as one:
                return clean(one.what, 60)
            case Noted() as one:
                return f"Noted of tray {one.tray}"

    @property
    def story(self) -> list[str]:
        """All there is to tell of it."""
        now, units = self.stack.as_of, self.stack.setup.units
        match self.about:
            case Going() as one:
                return over_story(one, now, units)
            case Source() as one:
                return source_story(one, now)
            case Went() as one:
                return [f"{went_words(one)}."]
            case Noted() as one:
                return noted_story(one, now)


def items(stack: Stack, pantry: Pantry) -> list[Item]:
    """Every row of a bin: sources first, for they can be stopped; then pieces, those gone, and notes."""
    found: list[About] = [*sources(stack), *going_round(stack, pantry), *went(stack), *noted(stack)]
    return [Item(f"{stack.key}:{_key(one)}", stack, one) for one in found]


def in_order(found: Iterable[Item]) -> list[Item]:
    """Rows of several bins in one order: what can be stopped first, the worst of it on top; notes by age."""
    return sorted(found, key=lambda item: _rank(item.about))


def _rank(about: About) -> tuple[int, float]:
    match about:
        case Source():
            return 0, -about.in_a_year
        case Going():
            return 1, -about.over.turns
        case Went():
            return 2, -about.times
        case Noted():
            return 3, -about.at.timestamp()


def _key(about: About) -> str:
    match about:
        case Source():
            return f"source:{about.key}"
        case Going():
            return f"over:{about.over.tray}:{fold(about.over.what)}"
        case Went():
            return f"went:{fold(about.what)}"
        case Noted():
            return f"noted:{about.tray}:{about.at.isoformat()}"


def found_rows(found: list[Item], width: int, *, named: bool) -> list[Row]:
    """The rows, wrapped to the width; each names its bin where there are several."""
    return [Row(tuple(_lines(item, width, named)), item.key) for item in found]


def _lines(item: Item, width: int, named: bool) -> Iterator[tuple[Span, ...]]:
    word, look, name, told = _cells(item)
    called = BESIDE_BIN if named else NAME
    before: tuple[Span, ...] = (
        (f"{word:<{WORD}}", look),
        (f"{clean(item.stack.setup.name, BIN - 1):<{BIN}}" if named else "", "muted"),
        (f"{clean(name, called - 1):<{called}}", "plain" if look != "muted" else "muted"),
    )
    taken = sum(len(text) for text, _ in before)
    first, *rest = wrap(told, max(LEAST, width - taken)) or [""]
    yield (*before, (first, "muted"))
    for line in rest:
        yield ((" " * taken, "plain"), (line, "muted"))


def _cells(item: Item) -> tuple[str, str, str, str]:
    """The word, its look, the name, and what else there is room for."""
    now, units = item.stack.as_of, item.stack.setup.units
    match item.about:
        case Source() as one:
            amounts = amount_words(one.year if one.year else one.ever)
            last = as_read(one.stopped_at or one.last_at, now)
            which = "none since" if one.stopped_at is not None else "last"
            return (*STATES[one.state], source_name(one), f"{amounts}, {which} {last.day} {last:%b %Y}")
        case Going() as one:
            days = count(round(days_between(one.over.first_at, now)), "day")
            told = f"in {one.over.tray}, {count(one.over.turns, 'turn')}, {days}"
            return "goes round", "plain", over_name(one.over, units), told
        case Went() as one:
            name, _, told = went_words(one).partition(": ")
            return "went", "muted", name, told.removeprefix("not carried on any more ")
        case Noted() as one:
            day = as_read(one.at, now)
            return "noted", "muted", f"tray {one.tray}, {day.day} {day:%b %Y}", noted_words(one)
