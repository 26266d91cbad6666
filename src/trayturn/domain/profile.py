"""A profile: one bin's setup, its trays and its journal, as read from plain data."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from trayturn.domain.entries import ENTRY_TYPES, JOURNAL, Entry
from trayturn.domain.problems import Problem
from trayturn.domain.setup import BinSetup, Ingredient, Tray
from trayturn.domain.words import clean

M = TypeVar("M", bound=BaseModel)

FORMAT = 1
TABLES = ("format", "bin", "trays", "ingredients", "journal")

WORDING = {
    "missing": "is missing",
    "float_type": "needs a number, without quotes or a unit",
    "int_type": "needs a whole number, without quotes or a unit",
    "finite_number": "needs a finite number",
    "greater_than": "needs more than {gt:g}",
    "greater_than_equal": "needs {ge:g} or more",
    "less_than_equal": "needs {le:g} or less",
    "string_type": "needs text in quotes",
    "string_too_short": "needs some text",
    "string_unicode": "holds half a character, as a torn paste can leave",
    "string_too_long": "is longer than {max_length} characters",
    "string_pattern_mismatch": "needs letters and digits without spaces, such as B",
    "enum": "needs one of {expected}",
    "literal_error": "needs one of {expected}",
    "datetime_type": "needs a date and time without quotes, such as 2026-03-01T10:00:00+01:00",
    "datetime_from_date_parsing": "needs a time of day too, such as 2026-03-01T10:00:00+01:00",
    "timezone_aware": "needs its offset from UTC, such as 2026-03-01T10:00:00+01:00",
    "dict_type": "needs a table, such as {{ cabbage = 0.5 }}",
    "tuple_type": 'needs a list, such as ["A", "B"]',
    "too_short": "needs at least {min_length} in it",
    "too_long": "has more than {max_length} in it",
    "model_type": "needs a table of keys and values",
    "model_attributes_type": "needs a table of keys and values",
}


@dataclass(frozen=True, slots=True)
class Profile:
    """Everything in one bin's file. `key` is the short name a keeper types for it."""

    key: str
    bin: BinSetup
    trays: tuple[Tray, ...] = ()
    journal: tuple[Entry, ...] = ()
    ingredients: tuple[Ingredient, ...] = ()

    def with_entries(self, entries: Iterable[Entry]) -> Profile:
        """The profile with entries added to the end of its journal."""
        return replace(self, journal=(*self.journal, *entries))

    def empty_kg(self, tray_id: str) -> float:
        """What the empty tray weighs, kg: its own figure, or the set's."""
        own = next((tray.empty_kg for tray in self.trays if tray.id == tray_id), None)
        return self.bin.tray_empty_kg if own is None else own


def read_setup(data: Mapping[str, Any]) -> tuple[BinSetup | None, tuple[Tray, ...], list[Problem]]:
    """Everything but the journal: the setup and trays, and all that is wrong with them."""
    problems = [*_check_tables(data)]
    found = data.get("bin", [])
    setup = None if isinstance(found, list) else _read(BinSetup, found, "bin", problems)
    rows = data.get("trays", [])
    if not isinstance(rows, list):
        return setup, (), [*problems, Problem("needs one [[trays]] for each tray", "trays")]
    read = [_read(Tray, row, f"trays[{n}]", problems) for n, row in enumerate(rows, 1)]
    trays = tuple(tray for tray in read if tray is not None)
    problems += _check_twins(trays)
    return setup, trays, problems


def read_ingredients(data: Mapping[str, Any]) -> tuple[tuple[Ingredient, ...], list[Problem]]:
    """The keeper's own ingredients, and all that is wrong with them."""
    rows = data.get("ingredients", [])
    if not isinstance(rows, list):
        return (), [Problem("needs one [[ingredients]] for each ingredient", "ingredients")]
    problems: list[Problem] = []
    read = [_read(Ingredient, row, f"ingredients[{n}]", problems) for n, row in enumerate(rows, 1)]
    return tuple(one for one in read if one is not None), problems


def read_journal(rows: object, first: int = 1) -> tuple[list[Entry], list[Problem]]:
    """Entries from plain data. `first` is the place of the first row in the file, counted from 1."""
    if not isinstance(rows, list):
        return [], [Problem("needs one [[journal]] for each entry", "journal")]
    try:
        return JOURNAL.validate_python(rows), []
    except ValidationError as error:
        return [], [_explain(detail, rows, first) for detail in _details(error)]


def nearest(word: str, known: Iterable[str]) -> str:
    """`, did you mean …?` for a word close to a known one, and nothing otherwise."""
    close = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f", did you mean {close[0]}?" if close else ""


def _check_tables(data: Mapping[str, Any]) -> Iterable[Problem]:
    version = data.get("format")
    if version is None:
        yield Problem(f"is missing; a profile begins with format = {FORMAT}", "format")
    elif type(version) is int and version > FORMAT:
        yield Problem(f"is {version}, written by a newer trayturn; this one reads format {FORMAT}", "format")
    elif type(version) is not int or version != FORMAT:
        yield Problem(f"is not one that is known; write format = {FORMAT}", "format")
    if "bin" not in data:
        yield Problem("is missing; a profile needs a [bin] table with at least a name", "bin")
    elif isinstance(data["bin"], list):
        yield Problem("needs to be one table, written [bin] and not [[bin]]", "bin")
    for key in data:
        if key not in TABLES:
            yield Problem(f"is not a table of a profile{nearest(key, TABLES)}", key)


def _check_twins(trays: tuple[Tray, ...]) -> list[Problem]:
    ids = [tray.id for tray in trays]
    twins = sorted({tray_id for tray_id in ids if ids.count(tray_id) > 1})
    return [Problem(f"tray {tray_id} is listed more than once", "trays") for tray_id in twins]


def _read(model: type[M], data: object, key: str, problems: list[Problem]) -> M | None:
    try:
        return model.model_validate(data)
    except ValidationError as error:
        for detail in _details(error):
            problems.append(Problem(_word(detail, model), key + _path(detail["loc"])))
        return None


def _details(error: ValidationError) -> list[Any]:
    """A list whose parts are all wrong is also called too short; the keeper sees the parts alone."""
    details = error.errors(include_url=False)
    return [detail for detail in details if not (detail["type"] == "too_short" and detail["input"])]


def _explain(detail: Any, rows: list[Any], first: int) -> Problem:
    index, *rest = detail["loc"]
    row = rows[index]
    kind = row.get("kind") if isinstance(row, dict) else None
    key = f"journal[{index + first}]" + _path(rest[1:] if rest and rest[0] == kind else rest)
    if detail["type"] == "union_tag_not_found":
        return Problem('has no kind, such as kind = "note"', key)
    if detail["type"] == "union_tag_invalid":
        return Problem(f"has the unknown kind {_shown(kind)}{nearest(str(kind), ENTRY_TYPES)}", key)
    return Problem(_word(detail, ENTRY_TYPES.get(str(kind))), key)


def _path(places: Iterable[str | int]) -> str:
    """`.order[2]` for the second in a list, counted from 1; `[key]` stands for a name itself being wrong."""
    return "".join(
        f"[{place + 1}]" if isinstance(place, int) else f".{clean(place, 40) or '?'}"
        for place in places
        if place != "[key]"
    )


def _word(detail: Any, model: type[BaseModel] | None) -> str:
    if detail["type"] == "extra_forbidden":
        name = str(detail["loc"][-1])
        return f"is not a key that is known here{nearest(name, model.model_fields if model else ())}"
    value = detail["input"]
    if isinstance(value, datetime) and detail["type"] in ("greater_than_equal", "less_than"):
        return f"needs a year from 1900 to 2199{_seen(value)}"
    if detail["type"] in WORDING:
        named = "the name " if detail["loc"][-1:] == ("[key]",) else ""
        return f"{named}{WORDING[detail['type']].format(**detail.get('ctx', {}))}{_seen(value)}"
    text = re.sub(r"^(Value error, |Input )", "", detail["msg"])
    return f"{text[:1].lower()}{text[1:]}{_seen(value)}"


def _seen(value: object) -> str:
    """What stands there now, where that is short enough to help."""
    if isinstance(value, date | time) or (isinstance(value, str | int | float) and len(repr(value)) < 60):
        return f" (it is {_shown(value)})"
    return ""


def _shown(value: object) -> str:
    """A value as the file has it."""
    if isinstance(value, bool):
        return str(value).lower()
    return value.isoformat() if isinstance(value, date | time) else repr(value)[:60]
