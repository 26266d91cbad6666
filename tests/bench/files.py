"""Reading a profile, and saving one entry."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from tests.bench import floors
from tests.bench.figures import Figure, medians, ms
from tests.bench.journals import write
from trayturn.domain.entries import Note
from trayturn.storage.blocks import entry_blocks
from trayturn.storage.reading import load
from trayturn.storage.saving import append


def figures(folder: Path) -> Iterator[Figure]:
    for entries in (1_000, 15_000):
        path = write(folder / f"{entries}.toml", entries)
        yield _reading(path, entries)
        yield _saving(path, entries)


def _reading(path: Path, entries: int) -> Figure:
    ours, floor = medians(7, lambda: ms(lambda: load(path)), lambda: ms(lambda: floors.read(path)))
    return Figure(f"reading a profile, {entries:,} entries", ours, floor, 1.5)


def _saving(path: Path, entries: int) -> Figure:
    note = Note(at=datetime.now().astimezone().replace(microsecond=0), text="Looks well.")
    added = entry_blocks([note]).encode()
    other = write(path.with_stem("floor"), entries)
    loaded = [load(path)]

    def save() -> None:
        loaded[0] = append(loaded[0], [note])

    ours, floor = medians(15, lambda: ms(save), lambda: ms(lambda: floors.save(other, added)))
    return Figure(f"saving one entry, {entries:,} entries", ours, floor, 3)
