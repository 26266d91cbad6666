"""The journal as it is listed: what stands, newest first, of one tray or kind where asked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from trayturn.advice.entry_words import entry_words, group_of
from trayturn.domain.entries import Entry, StepEnded
from trayturn.domain.replay import standing
from trayturn.domain.setup import Units
from trayturn.tui.widgets.line_list import Row

Placed = tuple[int, Entry]
"""An entry and its place in the file, from 1."""


def newest_first(journal: Iterable[Entry]) -> list[Placed]:
    """The entries that stand. The end of a step is left out: the next step's beginning tells it."""
    kept = [pair for pair in standing(journal) if not isinstance(pair[1], StepEnded)]
    kept.sort(key=lambda pair: pair[1].at)
    kept.reverse()
    return kept


def trays_of(entry: Entry) -> Sequence[str]:
    """The trays an entry is about: its own, or all that a turn set in order."""
    tray = getattr(entry, "tray", None)
    return getattr(entry, "order", ()) if tray is None else (tray,)


@dataclass(frozen=True)
class Listing:
    """Every entry that stands by its place in the file, newest first, and what there is to choose from."""

    entries: Mapping[str, Placed]
    trays: Sequence[str]
    groups: Sequence[str]

    @classmethod
    def of(cls, journal: Iterable[Entry]) -> Listing:
        entries = newest_first(journal)
        trays = sorted({tray for _, entry in entries for tray in trays_of(entry)})
        kinds = {entry.kind: entry for _, entry in entries}
        groups = sorted({group_of(entry) for entry in kinds.values()})
        return cls({str(placed[0]): placed for placed in entries}, trays, groups)

    def chosen(self, tray: str | None, group: str | None) -> Mapping[str, Placed]:
        """The entries about that tray and of that group; None asks for all."""
        if tray is None and group is None:
            return self.entries
        return {
            key: (place, entry)
            for key, (place, entry) in self.entries.items()
            if (tray is None or tray in trays_of(entry)) and (group is None or group_of(entry) == group)
        }

    @property
    def tray_width(self) -> int:
        """How wide the column of trays is, at least two."""
        return max((len(tray) for tray in self.trays), default=0) + 2


def entry_row(placed: Placed, units: Units, tray_width: int) -> Row:
    """One entry on one line: when, by the keeper's clock then, what kind, which tray, and what it says."""
    place, entry = placed
    tray = getattr(entry, "tray", None) or ""
    spans = (
        (f"{entry.at:%Y-%m-%d %H:%M}  ", "muted"),
        (f"{group_of(entry):<12}", "strong"),
        (f"{tray:<{tray_width}}", "strong"),
        (entry_words(entry, units), "plain"),
    )
    return Row((spans,), str(place))


def next_of(choices: Sequence[str], now: str | None) -> str | None:
    """The choice after this one; after the last one all, which is None."""
    around = [None, *choices]
    return around[(around.index(now) + 1) % len(around)] if now in around else None
