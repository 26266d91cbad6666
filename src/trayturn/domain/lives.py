"""One life of a tray: from its fresh bedding to the separation that emptied it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING

from trayturn.domain.entries import Checked, Fed, TrayStarted

if TYPE_CHECKING:
    from trayturn.domain.stack import Separation


@dataclass(frozen=True, slots=True)
class TrayLife:
    """What went into a tray from its start until its separation was finished. Masses in kg.

    `start` is None where the journal never started the tray. `separations` are those of this life, oldest
    first: the last one emptied the tray, after those before it was put back. `last_moisture`, `gross_kg` and
    `weighed_at` are the last readings of this life.
    """

    tray: str
    started_at: datetime
    ended_at: datetime
    start: TrayStarted | None = None
    meals: tuple[Fed, ...] = ()
    scraps_kg: Mapping[str, float] = field(default_factory=dict)
    bedding_kg: Mapping[str, float] = field(default_factory=dict)
    grit_kg: float = 0.0
    water_kg: float = 0.0
    last_moisture: Checked | None = None
    gross_kg: float | None = None
    weighed_at: datetime | None = None
    separations: tuple[Separation, ...] = ()

    @property
    def whole(self) -> bool:
        """Whether this journal has all that went in: not of a tray that came filled from another bin."""
        return self.start is not None and not self.start.came_from

    @property
    def separated_at(self) -> datetime:
        """When the separation that emptied it was begun."""
        return self.separations[-1].begun_at if self.separations else self.ended_at
