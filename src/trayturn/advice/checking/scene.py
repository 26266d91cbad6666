"""What a check is made against: the bin, the tray, what was read before, and what is read now."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property

from trayturn.advice.checking.history import Checks, Point, history
from trayturn.advice.checking.kinds import Kind, Value, fields_of
from trayturn.advice.contents import Contents, tray_contents
from trayturn.advice.pantry import Pantry
from trayturn.domain.entries import Checked
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack, TrayState


@dataclass(frozen=True)
class Scene:
    """`tray` is None for the bin as a whole; `checks` are all that stand, by what they read.

    `now` are the readings being taken, which stand in no entry yet.
    """

    stack: Stack
    tray: TrayState | None
    checks: Checks
    pantry: Pantry
    now: Mapping[Kind, Value] = field(default_factory=dict)
    _past: dict[Kind, tuple[Point, ...]] = field(default_factory=dict, compare=False, repr=False)

    @property
    def units(self) -> Units:
        return self.stack.setup.units

    def past(self, kind: Kind) -> tuple[Point, ...]:
        """What was read of a kind before now, oldest first."""
        if kind not in self._past:
            self._past[kind] = history(self.checks, kind, self.stack, self.tray)
        return self._past[kind]

    def taking(self, now: Mapping[Kind, Value]) -> Scene:
        """The same scene with other readings being taken: what was read before is looked up once."""
        return replace(self, now=now)

    def points(self, kind: Kind) -> tuple[Point, ...]:
        """What was read of a kind, the reading being taken last."""
        value = self.now.get(kind)
        taken = () if value is None else (Point(self.stack.as_of, kind, value),)
        return (*self.past(kind), *taken)

    @cached_property
    def contents(self) -> Contents | None:
        """What the tray holds, by the readings being taken too; None for the bin as a whole."""
        if self.tray is None:
            return None
        warmth = self.now.get(Kind.TEMPERATURE)
        celsius = warmth if isinstance(warmth, float) else self.stack.temperature_c
        stack = replace(self.stack, temperature_c=celsius)
        return tray_contents(self._read(self.tray), stack, self.pantry)

    def reckoned(self, at: datetime) -> Contents | None:
        """What the tray held at a moment by what had gone in alone, as if it had never been weighed."""
        if self.tray is None:
            return None
        tray = self._read(self.tray) if at == self.stack.as_of else self.tray
        return tray_contents(_unweighed(tray, at), replace(self.stack, as_of=at), self.pantry)

    def _read(self, tray: TrayState) -> TrayState:
        return as_read(tray, Checked(at=self.stack.as_of, tray=tray.id, **fields_of(self.now)))


def _unweighed(tray: TrayState, at: datetime) -> TrayState:
    """The tray as it was at a moment, without its weight; a reading taken later was not known then."""
    later = [meal for meal in tray.meals if meal.at > at]
    bedding = dict(tray.bedding_kg)
    for meal in later:
        for name, kg in meal.bedding_kg.items():
            bedding[name] -= kg
    read = tray.last_moisture
    return replace(
        tray,
        meals=tuple(meal for meal in tray.meals if meal.at <= at),
        bedding_kg=bedding,
        last_moisture=read if read is not None and read.at <= at else None,
        gross_kg=None,
        weighed_at=None,
    )


def as_read(tray: TrayState, entry: Checked) -> TrayState:
    """The tray as it would stand with that check of it written down."""
    wetness = entry.moisture_pct is not None or entry.feel is not None
    weighed = entry.gross_kg is not None
    return replace(
        tray,
        last_check=entry,
        last_moisture=entry if wetness else tray.last_moisture,
        gross_kg=entry.gross_kg if weighed else tray.gross_kg,
        weighed_at=entry.at if weighed else tray.weighed_at,
    )
