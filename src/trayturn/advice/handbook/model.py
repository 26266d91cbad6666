"""What a page of the handbook is made of."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from trayturn.advice.pages import Page


class Sure(StrEnum):
    """How sure a figure or a saying is, in the words that stand beside it."""

    TABLE = "read in the table"
    SOURCE = "read in the source"
    ABSTRACT = "read in the abstract"
    SECOND_HAND = "at second hand"
    TRADE = "trade lore"
    PRACTICE = "common practice, no source"
    RECKONED = "reckoned here"
    OURS = "our own choice"
    NONE = "no source found"


@dataclass(frozen=True, slots=True)
class Source:
    """Where something comes from and how sure that makes it. What has no source of its own cites nothing."""

    id: str
    cite: str
    sure: Sure

    @property
    def words(self) -> str:
        """`Reeh 1992 (read in the abstract)`, or `common practice, no source`."""
        return f"{self.cite} ({self.sure})" if self.cite else str(self.sure)


@dataclass(frozen=True, slots=True)
class Said:
    """One saying, a sentence or a few, and what it rests on."""

    text: str
    sources: tuple[Source, ...] = ()


@dataclass(frozen=True, slots=True)
class TableRow:
    """One row of a table, and what it rests on."""

    cells: tuple[str, ...]
    sources: tuple[Source, ...] = ()


@dataclass(frozen=True, slots=True)
class Table:
    """Columns with their heads, and rows as long as there are columns."""

    columns: tuple[str, ...]
    rows: tuple[TableRow, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A heading, perhaps a table, and sayings."""

    heading: str
    said: tuple[Said, ...] = ()
    table: Table | None = None

    @property
    def claims(self) -> tuple[TableRow | Said, ...]:
        """All that rests on something, in reading order: the table's rows before the sayings."""
        return (*(self.table.rows if self.table else ()), *self.said)

    @property
    def sources(self) -> tuple[Source, ...]:
        """Every source of the section once, in reading order."""
        return tuple(dict.fromkeys(source for one in self.claims for source in one.sources))


@dataclass(frozen=True, slots=True)
class Article:
    """One page as it is written. `words` are what it is found by besides its title and text."""

    page: Page
    title: str
    summary: str
    sections: tuple[Section, ...]
    see: tuple[Page, ...]
    words: tuple[str, ...]

    @property
    def sources(self) -> tuple[Source, ...]:
        """Every source of the page once."""
        return tuple(dict.fromkeys(source for section in self.sections for source in section.sources))
