"""Journal entries as events of the model, one after the other."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from trayturn.advice.outlook import makeup
from trayturn.advice.outlook.calendar import Calendar
from trayturn.advice.outlook.makeup import Makeup
from trayturn.advice.pantry import Pantry
from trayturn.advice.stock.thumb import tray_fill
from trayturn.domain.entries import (
    Fed,
    HatchlingsRecovered,
    Outcome,
    SeparationBegun,
    SeparationEnded,
    Settled,
    TrayStarted,
    Turned,
    WormsAdded,
    WormsRemoved,
)
from trayturn.domain.replay import Told
from trayturn.domain.setup import BinSetup
from trayturn.science.process.events import Emptied, Event, Put, Separate, Turn, WormsPut, WormsTaken

NAMED_TRAY = re.compile(r"\btray\s+([\w-]+)", re.IGNORECASE)


class Reader:
    """Reads entries in their order and remembers which trays hold something and which are being separated.

    The order of the trays is that of the replay, and what the replay refuses counts for nothing here too.
    `unfilled` are trays whose bedding nobody wrote down, `stand_ins` names reckoned as something else.
    """

    def __init__(self, calendar: Calendar, setup: BinSetup, pantry: Pantry) -> None:
        self.calendar, self.pantry = calendar, pantry
        self.fill_kg = tray_fill(setup).mid
        self.unfilled: dict[str, None] = {}
        self.stand_ins: dict[str, None] = {}
        self._day = 0.0
        self._used: set[str] = set()
        self._holding: set[str] = set()
        self._separating: dict[str, bool] = {}

    def read(self, entries: Iterable[Told]) -> Iterator[Event]:
        """The events of these entries, which come after those read before. Days never run backwards."""
        for one in entries:
            self._day = max(self._day, self.calendar.day(one.at))
            handler = _HANDLERS.get(type(one.entry))
            if handler is not None:
                yield from handler(self, one)

    def started(self, one: Told) -> Iterator[Event]:
        entry = one.entry
        assert isinstance(entry, TrayStarted)
        if entry.tray in one.before:
            return
        filled = self._bedding(entry.tray, entry.bedding_kg) + makeup.water(entry.water_kg)
        yield from self._afresh(entry.tray)
        yield Turn(self._day, one.after)
        yield self._put(entry.tray, filled)

    def fed(self, one: Told) -> Iterator[Event]:
        entry = one.entry
        assert isinstance(entry, Fed)
        if entry.tray not in one.after:
            return
        unknown = [name for name in entry.items_kg if not self.pantry.scraps(name)[1]]
        self.stand_ins.update(dict.fromkeys(unknown))
        meal = makeup.scraps(entry.items_kg, self.pantry) + makeup.bedding(entry.bedding_kg, self.pantry)
        yield self._put(entry.tray, meal + makeup.grit(entry.grit_kg) + makeup.water(entry.water_kg))

    def turned(self, one: Told) -> Iterator[Event]:
        """A tray that a turn brings in without its start counts as fresh bedding."""
        new = [tray for tray in one.after if tray not in one.before]
        for tray in new:
            yield from self._afresh(tray)
        if one.after != one.before:
            yield Turn(self._day, one.after)
        for tray in new:
            yield self._put(tray, self._bedding(tray, {}))

    def separation_begun(self, one: Told) -> Iterator[Event]:
        entry = one.entry
        assert isinstance(entry, SeparationBegun)
        if entry.tray in one.before and entry.tray not in self._separating:
            self._separating[entry.tray] = False
            yield from _moved(self._day, one)

    def settled(self, one: Told) -> Iterator[Event]:
        entry = one.entry
        assert isinstance(entry, Settled)
        if self._separating.get(entry.tray) is False:
            self._separating[entry.tray] = True
            yield self._separate(entry.tray, self._overs_to(entry, one.after))

    def separation_ended(self, one: Told) -> Iterator[Event]:
        entry = one.entry
        assert isinstance(entry, SeparationEnded)
        settled = self._separating.pop(entry.tray, None)
        if settled is None:
            return
        if entry.outcome is Outcome.FINISHED and not settled:
            yield self._separate(entry.tray, self._fed(entry.tray, one.before))
        yield from _moved(self._day, one)

    def worms_added(self, one: Told) -> Iterator[Event]:
        assert isinstance(one.entry, WormsAdded)
        yield WormsPut(self._day, one.entry.worms_kg)

    def worms_removed(self, one: Told) -> Iterator[Event]:
        assert isinstance(one.entry, WormsRemoved)
        yield WormsTaken(self._day, one.entry.worms_kg)

    def hatchlings(self, one: Told) -> Iterator[Event]:
        entry = one.entry
        assert isinstance(entry, HatchlingsRecovered)
        if entry.tray is not None and entry.worms_kg is not None:
            yield WormsPut(self._day, entry.worms_kg)

    def _afresh(self, tray: str) -> Iterator[Event]:
        """A tray that was used before is emptied; its worms stay in the bin, whoever sorted them out."""
        if tray in self._holding:
            yield self._separate(tray, None)
        if tray in self._used:
            yield Emptied(self._day, tray)
        self._used.add(tray)

    def _bedding(self, tray: str, bedding_kg: dict[str, float]) -> Makeup:
        if not bedding_kg:
            self.unfilled[tray] = None
            return makeup.bedding({"shreds": self.fill_kg}, self.pantry)
        return makeup.bedding(bedding_kg, self.pantry)

    def _separate(self, tray: str, overs_to: str | None) -> Separate:
        self._holding.discard(tray)
        return Separate(self._day, tray, overs_to=overs_to)

    def _put(self, tray: str, what: Makeup) -> Put:
        self._holding.add(tray)
        return Put(
            self._day,
            tray,
            quick_kg=what.quick_kg,
            slow_kg=what.slow_kg,
            resistant_kg=what.resistant_kg,
            water_kg=what.water_kg,
            castings_kg=what.inert_kg,
        )

    def _overs_to(self, entry: Settled, order: tuple[str, ...]) -> str | None:
        """The tray that the keeper names, or the one that is fed."""
        words = entry.overs_to.strip()
        named = [words, *NAMED_TRAY.findall(words)]
        found = next((tray for tray in named if tray in order and tray != entry.tray), None)
        return found or self._fed(entry.tray, order)

    def _fed(self, leaving: str, order: tuple[str, ...]) -> str | None:
        """The highest tray but those being separated: in either pattern the one that is fed."""
        others = [tray for tray in order if tray != leaving and tray not in self._separating]
        return others[-1] if others else None


def _moved(day: float, one: Told) -> Iterator[Event]:
    if one.after != one.before:
        yield Turn(day, one.after)


_HANDLERS: dict[type[Any], Callable[[Reader, Told], Iterator[Event]]] = {
    TrayStarted: Reader.started,
    Fed: Reader.fed,
    Turned: Reader.turned,
    SeparationBegun: Reader.separation_begun,
    Settled: Reader.settled,
    SeparationEnded: Reader.separation_ended,
    WormsAdded: Reader.worms_added,
    WormsRemoved: Reader.worms_removed,
    HatchlingsRecovered: Reader.hatchlings,
}
