"""A form as plain data: its questions, and what is built from the answers. Nothing here draws."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from trayturn.domain.setup import Units
from trayturn.tui.screens.forms.fields import Field, read

Values = Mapping[str, Any]
UNITS = "units"
"""The field that, where a form has it, says in which units the rest of the form is typed."""


class Slip(ValueError):
    """What is wrong with one field, seen only once all of them are read. `field` is its name."""

    def __init__(self, field: str, words: str) -> None:
        super().__init__(words)
        self.field = field


@dataclass(frozen=True, slots=True)
class Form:
    """`build` makes what is to be saved of the values by field name, or raises `ValueError`.

    `aside` is said under the questions, of what stands in them so far.
    """

    title: str
    intro: str
    fields: tuple[Field, ...]
    build: Callable[[Values, datetime], Any]
    units: Units = Units.METRIC
    save_word: str = "Save"
    aside: Callable[[Mapping[str, str], datetime], str] | None = None

    def is_asked(self, field: Field, texts: Mapping[str, str]) -> bool:
        """Whether that question is to be answered, by what stands in the form."""
        if field.asked is None:
            return True
        return field.asked({one.name: texts.get(one.name, one.default) for one in self.fields})

    def units_of(self, texts: Mapping[str, str]) -> Units:
        """The units in which amounts are typed."""
        chosen = texts.get(UNITS)
        return Units(chosen) if chosen in list(Units) else self.units

    def read_all(self, texts: Mapping[str, str], now: datetime) -> tuple[dict[str, Any], dict[str, str]]:
        """The values by field name, and what is wrong by field name. What is not asked is None."""
        values: dict[str, Any] = {}
        wrong: dict[str, str] = {}
        for field in self.fields:
            if not self.is_asked(field, texts):
                values[field.name] = None
                continue
            try:
                values[field.name] = read(
                    field, texts.get(field.name, field.default), self.units_of(texts), now
                )
            except ValueError as slip:
                wrong[field.name] = str(slip)
        return values, wrong
