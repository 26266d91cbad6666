"""Journal entries as text, in the form that the program writes them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import datetime
from typing import Any

Row = dict[str, Any]


def value_text(value: Any) -> str:
    """One value. Text is kept to characters that TOML and JSON quote alike."""
    if isinstance(value, datetime):
        return str(value)
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key_text(key)} = {value_text(value[key])}" for key in value) + " }"
    if isinstance(value, list):
        return "[\n" + "".join(f"    {value_text(item)},\n" for item in value) + "]"
    return json.dumps(value)


def key_text(name: str) -> str:
    """A key, in quotes where it has a space."""
    return json.dumps(name) if " " in name else name


def row_text(row: Mapping[str, Any]) -> str:
    """One [[journal]] block; what is by name stands in tables under it."""
    tables = {key: value for key, value in row.items() if isinstance(value, dict)}
    lines = ["[[journal]]", *(f"{key} = {value_text(row[key])}" for key in row if key not in tables)]
    for name, table in tables.items():
        lines += ["", f"[journal.{name}]", *(f"{key_text(key)} = {value_text(table[key])}" for key in table)]
    return "\n".join(lines) + "\n"
