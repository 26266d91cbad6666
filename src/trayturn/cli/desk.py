"""What an entry is written against, and the checks that every entry typed on the command line passes."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from trayturn.cli import amounts
from trayturn.cli.parsing import Refused
from trayturn.domain.entries import Entry
from trayturn.domain.profile import Profile, read_journal
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, listed

LABELS = {
    "moisture_pct": "--moisture",
    "feel": "--feel",
    "temperature_c": "--temperature",
    "ph": "--ph",
    "smell": "--smell",
    "sump_l": "--sump",
    "strays": "--strays",
    "gross_kg": "--weight",
    "grit_kg": "--grit",
    "bedding_kg": "--bedding",
    "water_kg": "--water",
    "level": "--level",
    "stage": "--stage",
    "stages": "--stage",
    "came_from": "--from",
    "no_fresh": "--no-fresh",
    "worms_seen": "--worms",
    "skimmed_kg": "--skimmed",
    "castings_kg": "--castings",
    "worms_kg": "the amount",
    "counted": "--counted",
    "worms": "--worms-seen",
    "pests": "--pests",
    "code": "the code",
    "what": "what is to be looked at",
    "why": "--why",
    "item": "the due thing",
    "measure": "the measure",
    "kg": "the amount",
    "of": "--of",
    "name": "the name",
    "items_kg": "the scraps",
    "supplies_kg": "the supplies",
    "text": "the note",
    "tray": "the tray",
    "to": "--to",
    "pieces": "the pieces",
    "count": "--count",
    "source": "--source",
    "lot": "the lot's code",
    "place": "--place",
    "bait": "the bait",
    "mesh_mm": "--mesh",
    "passed_kg": "--passed",
    "oversize_kg": "--oversize",
    "oversize_to": "--to",
    "label": "the label",
    "use_by": "--use-by",
    "where": "--where",
    "share_pct": "--share",
    "note": "--note",
}


@dataclass(frozen=True)
class Desk:
    """What an entry is written against: the profile, the stack at the entry's moment, and what was typed."""

    profile: Profile
    stack: Stack
    at: datetime
    typed: Namespace

    @property
    def units(self) -> Units:
        return self.profile.bin.units

    def entry(self, kind: str, **fields: Any) -> Entry:
        """A checked entry. Raises `Refused` with the option that is at fault."""
        given = {key: value for key, value in fields.items() if value is not None}
        row = {"kind": kind, "at": self.at, "note": self.typed.note, **given}
        entries, problems = read_journal([row])
        if problems:
            key, _, part = problems[0].key.partition(".")[2].partition(".")
            place = f"{LABELS.get(key, key)}{part and f' {part}'}"
            raise Refused(f"{clean(place, 60)} {problems[0].message}.")
        return entries[0]

    def tray(self, text: str | None) -> str | None:
        """The tray as the profile writes it, whatever the case it was typed in. Raises `Refused`."""
        if text is None:
            return None
        started = [tray.id for tray in (*self.stack.trays, *self.stack.off_stack)]
        known = [tray.id for tray in self.profile.trays] or started
        match = next((name for name in known if name.casefold() == text.casefold()), None)
        if match is None and known:
            name = clean(self.profile.bin.name, 60)
            raise Refused(f"{name} has no tray {clean(text, 40)!r}. Its trays are {listed(known)}.")
        return match or text

    def mass(self, option: str, label: str) -> float | None:
        """The mass typed for an option, kg."""
        return amounts.mass(getattr(self.typed, option), label, self.units)

    def noted(self, entries: list[Entry], kind: str) -> list[Entry]:
        """Entries made by rule, with the keeper's note on the one of that kind."""
        own = {"kind", "at", "note"}
        return [self.entry(kind, **e.model_dump(exclude=own)) if e.kind == kind else e for e in entries]
