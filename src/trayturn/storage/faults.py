"""What is wrong with a file's text, in plain words, and on which line.

A line is only ever given when the parser itself has shown it: by refusing the text there, or by reading
everything above it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import tomli

from trayturn.domain.problems import Problem
from trayturn.domain.words import clean
from trayturn.storage.blocks import cut

MOST_LINES = 500
MOST_LOCATED = 100
FAULTS = (ValueError, RecursionError)

NEVER_ENDS = "begins a text in quotes that never ends; add the closing quotes"
ODD_SIGN = "holds a control character; remove it, or write it as \\u and four digits"
BACKSLASH = "has a backslash that means nothing here; write it twice: \\\\"
BRACKETS = "has a header that is not closed; write it as [bin] or [[journal]]"
TWICE = "gives the same key twice in one table; remove one of the two"
CLASH = "opens a table that stands elsewhere already; write each table once, and each entry under [[journal]]"
TOO_DEEP = "holds lists or tables too deep inside each other; write them flat"
TOO_LONG = "holds a number with too many digits; correct it"
NO_SENSE = "is neither a key with its value nor a header; put # before a remark"
NO_VALUE = "has no value that can be read; text goes in quotes, and a number is written as 1.5"
UNFINISHED = "begins a value that is never completed; add what is missing at its end"
IN_WORDS = {
    "Illegal character '\\n'": "begins a text in quotes that does not end on its line; add the closing quote",
    "Illegal character": ODD_SIGN,
    "Found invalid character": ODD_SIGN,
    "Unterminated string": NEVER_ENDS,
    "Expected \"'": NEVER_ENDS,
    "Unclosed array": "begins a list that never ends; add the closing ]",
    "Unclosed inline table": "begins a table in curly brackets that never ends; add the closing }",
    "Expected '='": "needs a key, an = sign and a value, such as ph = 6.5; a key with spaces needs quotes",
    "Expected ']": BRACKETS,
    "Expected newline": "has something left over after the value; text goes in quotes, a number is written"
    " as 1.5 and a time as 2026-03-01T10:00:00+01:00",
    "Invalid value": NO_VALUE,
    "Invalid date": "has a date or time that no calendar has; write it as 2026-03-01T10:00:00+01:00",
    "Invalid hex value": BACKSLASH,
    "Unescaped": BACKSLASH,
    "Escaped character": BACKSLASH,
    "Cannot overwrite": TWICE,
    "Duplicate inline": TWICE,
    "Cannot": CLASH,
    "An object other": CLASH,
    "There is no nest": CLASH,
    "Invalid initial": NO_SENSE,
    "Invalid statement": NO_SENSE,
}


def explain(error: ValueError | RecursionError, text: str) -> Problem:
    """The parser's refusal of a text as a problem."""
    begins, ends = _bad_statement(text)
    if isinstance(error, RecursionError):
        return Problem(TOO_DEEP, line=begins)
    if not isinstance(error, tomli.TOMLDecodeError):
        return Problem(TOO_LONG, line=begins)
    words = next((words for start, words in IN_WORDS.items() if error.msg.startswith(start)), error.msg)
    if error.pos >= len(error.doc.rstrip()):
        return Problem(UNFINISHED if words == NO_VALUE else words, line=begins)
    if begins and ends and ends < error.lineno:
        words += f"; or else what begins on line {begins} is not closed"
    return Problem(words, line=error.lineno)


def _bad_statement(text: str) -> tuple[int | None, int | None]:
    """The line on which the first statement begins that does not parse, and the last line it may take.

    A parser notices what is never closed only further down, at times at the very end.
    """
    line = 1
    for chunk in cut(text, 1):
        if _parse(chunk) is None:
            sound = _sound_lines(chunk)
            last = line + chunk.removesuffix("\n").count("\n")
            return None if sound is None else line + sound, last
        line += chunk.count("\n")
    return None, None


def _sound_lines(chunk: str) -> int | None:
    lines = chunk.split("\n")
    if len(lines) > MOST_LINES:
        return None
    return max(count for count in range(len(lines)) if _parse("\n".join(lines[:count])) is not None)


def _parse(text: str) -> dict[str, Any] | None:
    try:
        return tomli.loads(text)
    except FAULTS:
        return None


@dataclass(frozen=True, slots=True)
class Chunk:
    """A stretch of text that parses alone: one entry, or the setup. `line` and `first` count from 1."""

    text: str
    line: int
    first: int
    data: Mapping[str, Any]

    def rows(self) -> int:
        rows = self.data.get("journal")
        return len(rows) if isinstance(rows, list) else 0


def locate(problems: Sequence[Problem], text: str) -> tuple[Problem, ...]:
    """The problems, each with the line of its key in a text that parses; None where that is not known."""
    chunks = list(_chunks(text))
    placed = [replace(problem, line=_line_of(problem.key, chunks)) for problem in problems[:MOST_LOCATED]]
    return (*placed, *problems[MOST_LOCATED:])


def _chunks(text: str) -> Iterable[Chunk]:
    line, first = 1, 1
    for piece in cut(text, 1):
        if (data := _parse(piece)) is None:
            return
        chunk = Chunk(piece, line, first, data)
        yield chunk
        line += piece.count("\n")
        first += chunk.rows()


def _line_of(key: str, chunks: Sequence[Chunk]) -> int | None:
    match = re.fullmatch(r"([^.\[]+)(?:\[(\d+)\])?(.*)", key, re.DOTALL)
    if match is None:
        return None
    name, number, rest = match[1], match[2], match[3]
    for chunk in chunks:
        index = None if number is None else int(number) - (chunk.first if name == "journal" else 1)
        if name in chunk.data and (index is None or 0 <= index < _length(chunk.data[name])):
            path = [name] if index is None else [name, index]
            sound = _lines_above(chunk.text, [*path, *_steps(_at(chunk.data, path), rest)])
            return None if sound is None else chunk.line + sound
    return None


def _length(value: object) -> int:
    return len(value) if isinstance(value, list) else 0


def _steps(value: Any, rest: str) -> Iterable[str | int]:
    """The rest of a key, such as `.order[2]`, as steps into the data. A missing key ends at its table."""
    while rest:
        known = [(label, step) for label, step in _labels(value) if _begins(rest, label)]
        longest = max((len(label) for label, _ in known), default=0)
        fitting = [step for label, step in known if len(label) == longest]
        if len(fitting) != 1:
            return
        yield fitting[0]
        value, rest = value[fitting[0]], rest[longest:]


def _labels(value: Any) -> Iterable[tuple[str, str | int]]:
    """How problems point at each part of a value."""
    if isinstance(value, dict):
        return [(f".{clean(key, 40) or '?'}", key) for key in value]
    return [(f"[{n + 1}]", n) for n in range(_length(value))]


def _begins(rest: str, label: str) -> bool:
    return rest.startswith(label) and rest[len(label) :][:1] in ("", ".", "[")


def _lines_above(text: str, path: Sequence[str | int]) -> int | None:
    """How many lines stand above the statement that first gives the path a value."""
    lines = text.split("\n")
    above = 0
    for count in range(1, min(len(lines), MOST_LINES) + 1):
        if (data := _parse("\n".join(lines[:count]))) is None:
            continue
        if _at(data, path) is not None:
            return above
        above = count
    return None


def _at(data: Any, path: Sequence[str | int]) -> Any:
    for step in path:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return None
    return data
