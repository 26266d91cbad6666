"""One bin, or one tray of it, with the parts of its journal that a rule may ask about."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from itertools import takewhile
from operator import attrgetter
from typing import NamedTuple

from trayturn.advice.contents import ROOM_C, Contents, tray_contents
from trayturn.advice.pantry import Pantry
from trayturn.domain.entries import Checked, Fed, Stage
from trayturn.domain.profile import Profile
from trayturn.domain.replay import standing
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack, TrayState, days_between
from trayturn.science.blend import Blend, Part
from trayturn.science.materials import Material
from trayturn.science.ration import Ration, ration

LATELY_DAYS = 28.0
"""How far back feedings count: four weeks. Our choice."""
MOST_WORMS_KG = 1000.0
"""More is not reckoned with: it is a slip of the keyboard."""
DENSE_KG_M3 = 840.0
"""What scraps weigh that the table gives no density for (Solomon 1993)."""


@dataclass(frozen=True)
class Case:
    """What the rules look at. `tray` is None for the bin as a whole; `checks` and `fed` are oldest first."""

    stack: Stack
    pantry: Pantry
    tray: str | None
    checks: tuple[Checked, ...]
    fed: tuple[Fed, ...]

    @property
    def now(self) -> datetime:
        return self.stack.as_of

    @property
    def units(self) -> Units:
        return self.stack.setup.units

    @property
    def who(self) -> str:
        """`tray B`, or `the bin`."""
        return f"tray {self.tray}" if self.tray else "the bin"

    @cached_property
    def trays(self) -> tuple[TrayState, ...]:
        """The trays on the stack that are asked about."""
        return tuple(tray for tray in self.stack.trays if self.tray in (None, tray.id))

    @cached_property
    def focus(self) -> TrayState | None:
        """The tray to put right: the one asked about, else the one that is fed, else the top one."""
        fed = self.stack.in_stage(Stage.FEEDING)
        return next(iter(self.trays), None) if self.tray else next(iter((*fed, *reversed(self.trays))), None)

    @cached_property
    def meals(self) -> tuple[Fed, ...]:
        """The feedings asked about: those of the tray since it was started, or all."""
        if self.tray is None:
            return self.fed
        return self.trays[0].meals if self.trays else ()

    def lately(self, days: float = LATELY_DAYS) -> tuple[Fed, ...]:
        """The feedings asked about of the last days."""
        return self._last(self.meals, days)

    def all_lately(self) -> tuple[Fed, ...]:
        """The feedings of the whole bin of the last four weeks."""
        return self._last(self.fed, LATELY_DAYS)

    def _last(self, meals: Sequence[Fed], days: float) -> tuple[Fed, ...]:
        """Those of the last days, looked for from the end: a long journal costs nothing."""
        recent = takewhile(lambda meal: days_between(meal.at, self.now) <= days, reversed(meals))
        return tuple(recent)[::-1]

    def last_check(self, seen: Callable[[Checked], object], days: float) -> Checked | None:
        """The latest check of the last days in which that was read: of the tray, or of the bin as a whole."""
        for check in reversed(self.checks):
            if days_between(check.at, self.now) > days:
                return None
            if self._is_ours(check) and seen(check) not in (None, "", ()):
                return check
        return None

    def _is_ours(self, check: Checked) -> bool:
        """A check of the tray before it was last started is of what it held then."""
        if check.tray is None:
            return True
        tray = self.stack.tray(check.tray)
        return self.tray in (None, check.tray) and tray is not None and check.at >= tray.started_at

    def holds(self, tray: TrayState) -> Contents:
        """What a tray holds by now."""
        if tray.id not in self._held:
            self._held[tray.id] = tray_contents(tray, self.stack, self.pantry)
        return self._held[tray.id]

    @cached_property
    def _held(self) -> dict[str, Contents]:
        return {}

    @property
    def celsius(self) -> float:
        """The temperature last read, or that of a room."""
        return ROOM_C if self.stack.temperature_c is None else self.stack.temperature_c

    @property
    def worms_kg(self) -> float | None:
        """The worms written down; None where none are."""
        return min(self.stack.worms_kg, MOST_WORMS_KG) if self.stack.worms_kg else None

    @cached_property
    def ration(self) -> Ration | None:
        """What the worms written down can take a day, as warm as it is."""
        return None if self.worms_kg is None else ration(self.worms_kg, self.celsius)

    def row(self, name: str) -> Material:
        """The row that scraps are reckoned by: their own, though nobody knows how fast they go."""
        own = self.pantry.meant(name)
        return own if own is not None and own.moisture is not None else self.pantry.scraps(name)[0]

    def scraps(self, days: float = LATELY_DAYS) -> dict[str, float]:
        """The scraps fed in the last days by name, kg."""
        fed: dict[str, float] = {}
        for meal in self.lately(days):
            for name, kg in meal.items_kg.items():
                fed[name] = fed.get(name, 0.0) + kg
        return fed

    def blend(self, scraps: dict[str, float]) -> Blend:
        """Scraps as one mix."""
        return Blend(tuple(Part(self.row(name).stuff, kg) for name, kg in scraps.items()))


class Record(NamedTuple):
    """The checks and feedings of a journal that stand, oldest first. To be kept as long as its profile is."""

    checks: tuple[Checked, ...]
    fed: tuple[Fed, ...]


def record_of(profile: Profile) -> Record:
    """What the rules may ask a bin's journal about."""
    entries = sorted((entry for _, entry in standing(profile.journal)), key=attrgetter("at"))
    checks = tuple(entry for entry in entries if isinstance(entry, Checked))
    return Record(checks, tuple(entry for entry in entries if isinstance(entry, Fed)))


def case_of(record: Record, stack: Stack, pantry: Pantry, tray: str | None = None) -> Case:
    """The case of a bin as it stands, or of one of its trays. What is dated later does not count."""
    checks = record.checks[: bisect_right(record.checks, stack.as_of, key=attrgetter("at"))]
    fed = record.fed[: bisect_right(record.fed, stack.as_of, key=attrgetter("at"))]
    return Case(stack, pantry, tray, checks, fed)
