"""Troubles as values: what is wrong with a file, and what does not add up in a journal."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class Severity(StrEnum):
    """How much a finding matters to the keeper."""

    ERROR = "error"
    WARNING = "warning"
    INFO = "info"


@dataclass(frozen=True, slots=True)
class Problem:
    """Something in a file that cannot be read as a profile.

    `line` counts from 1 and is None where it is not known: a made-up number is worse than none.
    """

    message: str
    key: str = ""
    line: int | None = None
    file: str = ""

    def __str__(self) -> str:
        place = ", ".join(part for part in (self.file, self.line and f"line {self.line}", self.key) if part)
        return f"{place}: {self.message}" if place else self.message


@dataclass(frozen=True, slots=True)
class Finding:
    """Something in a readable journal that cannot have happened, or wants a look.

    `entry` is the position of the entry in the file, counted from 1; `where` names it for a person.
    """

    severity: Severity
    code: str
    what: str
    to_do: str = ""
    where: str = ""
    entry: int | None = None

    def __str__(self) -> str:
        text = f"{self.where}: {self.what}" if self.where else self.what
        return f"{text} {self.to_do}".strip()

    def as_json(self) -> dict[str, Any]:
        """The finding as plain data for a script."""
        return {
            "severity": str(self.severity),
            "code": self.code,
            "what": self.what,
            "to_do": self.to_do,
            "where": self.where,
            "entry": self.entry,
        }
