"""The text of a profile: where its journal can be cut, and how an entry is written down."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime, timedelta, timezone
from itertools import pairwise
from typing import Any

import tomli
import tomli_w
from pydantic import BaseModel

from trayturn.domain.entries import Entry
from trayturn.domain.profile import FORMAT
from trayturn.domain.setup import BinSetup, Tray

HEADER = re.compile(r"(?:\A|\n)([ \t]*\[\[[ \t]*journal[ \t]*\]\])")
GREETING = """\
# A worm bin. The lines that begin with # are for people: write your own, they are kept.
# Each [[journal]] block is one dated entry. New entries go at the end.
"""


def cut(text: str, entries: int) -> list[str]:
    """The text in pieces: what comes before the journal, then so many entries a piece.

    A line that only looks like an entry's header, inside a text of many lines, cuts there too; then the piece
    before it does not parse. While every piece parses alone, every cut lies between two statements.
    """
    starts = [match.start(1) for match in HEADER.finditer(text)]
    bounds = [0, *starts[::entries], len(text)]
    return [text[start:end] for start, end in pairwise(bounds)]


def entry_blocks(entries: Iterable[Entry]) -> str:
    """Each entry as its own `[[journal]]` block, with an empty line before it."""
    return "".join("\n" + _table("journal", _entry_data(entry), repeated=True) for entry in entries)


def profile_text(setup: BinSetup, trays: Sequence[Tray], entries: Iterable[Entry]) -> str:
    """A whole new file."""
    parts = [f"{GREETING}format = {FORMAT}\n", _table("bin", _filled(setup))]
    parts += [_table("trays", _filled(tray), repeated=True) for tray in trays]
    return "\n".join(parts) + entry_blocks(entries)


def _entry_data(entry: Entry) -> dict[str, Any]:
    """The entry in the order a person reads it: when, what, of which tray, and the note last."""
    data = _filled(entry)
    note = {"note": data.pop("note")} if "note" in data else {}
    return {"at": data.pop("at"), "kind": data.pop("kind"), **data, **note}


def _filled(model: BaseModel) -> dict[str, Any]:
    """The model's data without what was left empty, save where a key has to be there."""
    needed = {name for name, field in type(model).model_fields.items() if field.is_required()}
    data = model.model_dump(exclude_none=True)
    return {key: _plain(value) for key, value in data.items() if key in needed or value not in ("", {}, ())}


def _plain(value: Any) -> Any:
    if isinstance(value, datetime):
        return _with_offset(value)
    if isinstance(value, Mapping):
        return {key: _plain(inner) for key, inner in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(inner) for inner in value]
    return str(value) if isinstance(value, str) else value


def _with_offset(moment: datetime) -> datetime:
    """The same moment at a fixed offset in whole minutes: local mean times have seconds, TOML has none."""
    offset = moment.utcoffset() or timedelta()
    return moment.astimezone(timezone(timedelta(minutes=round(offset / timedelta(minutes=1)))))


def _table(name: str, data: Mapping[str, Any], *, repeated: bool = False) -> str:
    """The table's own text. Text of several lines is written over several lines where that loses nothing.

    Nothing in it but a header may look like one, so that `cut` cuts a file of our own where it should.
    """
    whole = {name: data}
    text = tomli_w.dumps(whole, multiline_strings=True)
    if "[[" in text or tomli.loads(text) != whole:
        text = tomli_w.dumps(whole)
    return text.replace(f"[{name}]", f"[[{name}]]", 1) if repeated else text
