"""Homes to measure in: the long sample, and journals of any length made from it."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from itertools import cycle, islice
from pathlib import Path

from trayturn.domain.entries import SeparationBegun, Step, StepStarted
from trayturn.storage.reading import load
from trayturn.storage.saving import append

SAMPLE = Path(__file__).parents[2] / "sample_profiles" / "stairwell.toml"
REPEATED = re.compile(r'^kind = "(fed|checked|note)"', re.MULTILINE)


def sample_length() -> int:
    """How many entries the long sample has."""
    return SAMPLE.read_text("utf-8").count("[[journal]]")


def write(path: Path, entries: int, name: str = "Landing") -> Path:
    """A journal of that many entries: the sample's own, then its feedings, checks and notes over again."""
    text = SAMPLE.read_text("utf-8").replace('name = "Stairwell"', f'name = "{name}"')
    head, *blocks = re.split(r"^(?=\[\[journal\]\])", text, flags=re.MULTILINE)
    daily = [block for block in blocks if REPEATED.search(block)]
    chosen = [*blocks, *islice(cycle(daily), max(0, entries - len(blocks)))][:entries]
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(head + "".join(block.rstrip("\n") + "\n\n" for block in chosen), "utf-8")
    return path


def a_home(folder: Path, entries: int) -> Path:
    """A home with that one journal in it."""
    home = folder / str(entries)
    write(home / "landing.toml", entries)
    return home


def put_to_rest(path: Path) -> None:
    """Begin a separation of the bin's lowest tray, in its rest for an hour from now."""
    now = datetime.now().astimezone().replace(microsecond=0)
    begun = SeparationBegun(at=now, tray="C")
    rest = StepStarted(at=now, tray="C", step=Step.REST, pass_number=1, ends_at=now + timedelta(hours=1))
    append(load(path), [begun, rest])
