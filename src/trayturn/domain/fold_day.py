"""How the entries of a turn day change it. What the day does to the stack has entries of its own."""

from __future__ import annotations

from dataclasses import replace

from trayturn.domain.day import TurnDay
from trayturn.domain.entries import DayOutcome, DayStepDone, TurnDayBegun, TurnDayEnded
from trayturn.domain.ledger import Ledger
from trayturn.domain.problems import Severity


def turn_day_begun(ledger: Ledger, entry: TurnDayBegun) -> None:
    """A day begins. One still open was left as it stood."""
    if ledger.turn_day is not None:
        _end(ledger, DayOutcome.LEFT, entry)
    stages = {tray: ledger.trays[tray].stage for tray in ledger.order}
    ledger.turn_day = TurnDay(entry, tuple(ledger.order), stages)


def day_step_done(ledger: Ledger, entry: DayStepDone) -> None:
    """A step is done; the same one done twice stands once."""
    day = ledger.turn_day
    if day is None:
        ledger.find("no-turn-day", "No turn day was under way for this step.", "Correct its date.")
        return
    same = (entry.step, entry.tray, entry.number)
    if any((one.step, one.tray, one.number) == same for one in day.done):
        ledger.find("day-step-twice", "This step of the turn day stands twice.", "", Severity.WARNING)
        return
    ledger.turn_day = replace(day, done=(*day.done, entry))


def turn_day_ended(ledger: Ledger, entry: TurnDayEnded) -> None:
    """The day is over."""
    if ledger.turn_day is None:
        ledger.find("no-turn-day", "No turn day was under way to be ended.", "Correct its date.")
        return
    _end(ledger, entry.outcome, entry)


def _end(ledger: Ledger, outcome: DayOutcome, entry: TurnDayBegun | TurnDayEnded) -> None:
    if ledger.turn_day is not None:
        ledger.past_turn_days.append(replace(ledger.turn_day, ended_at=entry.at, outcome=outcome))
    ledger.turn_day = None
