"""Going back in a turn day: what its last move wrote, and no more.

A day is interrupted by anything: a note, a check, a meal for another tray, another window. Going back leaves
all that alone, and does not take away what something written since rests on.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from trayturn.advice.turn_day.tasks import fed_tray
from trayturn.domain.day import TurnDay
from trayturn.domain.entries import Checked, DayStep, DayStepDone, Entry, Fed, PutOff, SeparationBegun, Undone
from trayturn.domain.problems import Severity
from trayturn.domain.profile import Profile
from trayturn.domain.replay import SEPARATION_STEPS, replay_now, standing
from trayturn.domain.stack import Stack
from trayturn.procedure.separation import last_move, take_out
from trayturn.procedure.turn_day import Look, written_with

HELD = "Something written down since rests on that. u takes back the last thing first."


def back(profile: Profile, day: TurnDay, now: datetime) -> list[Undone]:
    """What takes back the last move of this day; none where it has only begun."""
    return take_out(_last(profile.journal, day), now)


def separated_last(profile: Profile, day: TurnDay) -> str | None:
    """The tray whose separation made the last move of this day: that goes back as its own screen does."""
    last = _last(profile.journal, day)
    return last[0].tray if last and isinstance(last[0], (SeparationBegun, *SEPARATION_STEPS)) else None


def why_not_back(profile: Profile, day: TurnDay, now: datetime) -> str:
    """Why the last move cannot be taken back: something else would be wrong then. Empty where it can."""
    last = _last(profile.journal, day)
    without = profile.with_entries(take_out(last, now))
    kept = [entry for _, entry in standing(profile.journal) if not any(entry is one for one in last)]
    if [entry for _, entry in standing(without.journal)] != kept:
        return HELD
    return "" if _errors(replay_now(without, now)) <= _errors(replay_now(profile, now)) else HELD


def looked_before(journal: Sequence[Entry], day: TurnDay) -> Look | None:
    """What was seen on this day before the look was gone back from: it was taken back, not lost."""
    for place in range(len(journal) - 1, -1, -1):
        entry = journal[place]
        if isinstance(entry, DayStepDone) and entry.step is DayStep.LOOK and entry.at >= day.begun_at:
            written = [one for one in written_with(journal[: place + 1]) if isinstance(one, Checked)]
            return _look_of(written) if written else None
    return None


def _look_of(checks: Sequence[Checked]) -> Look:
    """The readings of a look, from the entries that it wrote."""
    bottom = next((one.feel for one in checks if one.tray is not None), None)
    whole = next((one for one in checks if one.tray is None), None)
    if whole is None:
        return Look(bottom=bottom)
    return Look(whole.sump_l, whole.strays, bottom, whole.smell)


def _errors(stack: Stack) -> set[tuple[str, str]]:
    return {(one.code, one.what) for one in stack.findings if one.severity is Severity.ERROR}


def _last(journal: Sequence[Entry], day: TurnDay) -> list[Entry]:
    """What the day's last move wrote, newest first."""
    acts = [entry for _, entry in standing(journal)]
    begun = [place for place, entry in enumerate(acts) if entry == day.plan]
    today = acts[begun[-1] + 1 :] if begun else []
    for place in range(len(today) - 1, -1, -1):
        entry = today[place]
        if isinstance(entry, DayStepDone):
            return written_with(today[: place + 1])
        if isinstance(entry, Fed) and entry.tray == fed_tray(day):
            return _meal(today, place)
        if isinstance(entry, (SeparationBegun, *SEPARATION_STEPS)) and entry.tray in day.plan.separating:
            return [one for one in last_move(journal, entry.tray) if any(one is other for other in today)]
    return []


def _meal(acts: Sequence[Entry], place: int) -> list[Entry]:
    """The meal, with what it put off."""
    after = acts[place + 1] if place + 1 < len(acts) else None
    with_it = [after] if isinstance(after, PutOff) and after.at == acts[place].at else []
    return [*with_it, acts[place]]
