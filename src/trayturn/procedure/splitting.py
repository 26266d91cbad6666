"""Worms moved from one bin to another: what is written in each of the two journals, at one moment."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from string import ascii_uppercase

from trayturn.advice.feeding import feed_next
from trayturn.advice.roles import free_tray, room
from trayturn.domain.entries import Entry, Stage, TrayStarted, Turned, WormsAdded, WormsRemoved
from trayturn.domain.problems import Finding, Severity
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay, replay_now
from trayturn.domain.setup import BinSetup, Pattern, Tray, Units
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean, count

GOES_ALONG = (Stage.BEDDING, Stage.FEEDING)
"""A finishing tray is separated, not handed on: its castings are wanted, and few worms are in it."""


class CannotSplit(ValueError):
    """A split that cannot be done. `about` is what is at fault: the tray that goes `along`, or `when`."""

    def __init__(self, about: str, sentence: str) -> None:
        super().__init__(sentence)
        self.about = about


@dataclass(frozen=True, slots=True)
class Split:
    """So many worms moved, kg, at a moment. `counted` where the weight was reckoned from a number.

    `along` is the tray that goes to the other bin with all that is in it; `tray` the one they are taken from.
    """

    at: datetime
    worms_kg: float
    counted: int | None = None
    along: str | None = None
    tray: str | None = None
    note: str = ""


def may_go_along(stack: Stack) -> list[str]:
    """The trays that can go to another bin as they stand, the top one first."""
    if len([tray for tray in stack.trays if tray.stage is not Stage.SEPARATING]) < 2:
        return []
    return [tray.id for tray in reversed(stack.trays) if tray.stage in GOES_ALONG]


def split_between(
    one: Profile, other: Profile, split: Split, now: datetime
) -> tuple[list[Entry], list[Entry]]:
    """The entries of both journals. Raises `CannotSplit`, also for what the journals would contradict."""
    first, second = replay(one, split.at), replay(other, split.at)
    out = _out(first, split, other.bin.name)
    came = _tray_in(_going(first, split), second, one.bin.name, split) if split.along else None
    tray = came.tray if came is not None else feed_next(second).tray or feed_next(second).instead
    into: list[Entry] = [_worms_in(one.bin.name, tray, split)]
    if came is not None:
        into.insert(0, came)
    _refuse_impossible(one, out, now)
    _refuse_impossible(other, into, now)
    return out, into


def split_off(
    one: Profile, name: str, split: Split, now: datetime
) -> tuple[list[Entry], BinSetup, tuple[Tray, ...], list[Entry]]:
    """The entries of the first bin, and a new bin of the same make with its own. Raises `CannotSplit`.

    `name` is one that a bin can have.
    """
    setup = BinSetup(**{**one.bin.model_dump(), "name": name, "place": "", "began": None})
    letters = tuple(Tray(id=letter) for letter in ascii_uppercase[: setup.tray_count])
    made = Profile("", setup, one.trays or letters)
    out, into = split_between(one, made, split, now)
    return out, setup, made.trays, into


def _out(stack: Stack, split: Split, went_to: str) -> list[Entry]:
    """What the first bin's journal gets: the stack without the tray, and the worms gone."""
    worms = WormsRemoved(
        at=split.at,
        worms_kg=split.worms_kg,
        tray=split.along or split.tray,
        went_to=went_to,
        counted=split.counted,
        note=split.note,
    )
    if split.along is None:
        return [worms]
    _going(stack, split)
    standing = [tray for tray in stack.trays if tray.stage is not Stage.SEPARATING]
    staying = {tray.id: Stage(tray.stage) for tray in standing if tray.id != split.along}
    if not staying:
        raise CannotSplit("along", f"Tray {split.along} is the only one, so it stays. Move worms alone.")
    gone = f"Tray {split.along} went to {went_to} with all that is in it."
    return [Turned(at=split.at, order=tuple(staying), stages=staying, note=gone), worms]


def _going(stack: Stack, split: Split) -> TrayState:
    """The tray that goes along, as it stands. Raises `CannotSplit` for one that cannot."""
    tray = stack.tray(split.along or "")
    if tray is None or not tray.on_stack:
        raise CannotSplit("along", f"Tray {clean(split.along or '', 12)} is not on the stack.")
    if tray.stage not in GOES_ALONG:
        raise CannotSplit(
            "along", f"Tray {tray.id} is {tray.stage}: separate it instead, and move its worms."
        )
    return tray


def _tray_in(tray: TrayState, other: Stack, came_from: str, split: Split) -> TrayStarted:
    """The tray as it enters the other bin, under a name that is free there. Raises `CannotSplit`."""
    name = clean(other.setup.name, 40)
    if other.separations:
        raise CannotSplit("along", f"{name} has a tray being separated. End that first, or move worms alone.")
    fits = tray.id in other.listed_trays or not other.listed_trays
    own = tray.id if fits and tray.id not in [t.id for t in other.trays] else free_tray(other)
    if own is None or not room(other):
        raise CannotSplit("along", f"{name} has no place for another tray. Move worms alone.")
    return TrayStarted(
        at=split.at,
        tray=own,
        bedding_kg=dict(tray.bedding_kg),
        water_kg=tray.water_kg or None,
        level=_level(tray, other),
        stage="feeding" if tray.stage is Stage.FEEDING else "bedding",
        came_from=came_from,
        note=_story(tray, came_from, other.setup.units),
    )


def _level(tray: TrayState, other: Stack) -> int | None:
    """A fed tray stays on top; bedding enters where the other bin's pattern says."""
    below = other.setup.pattern is Pattern.BEDDING_BELOW
    return len(other.trays) + 1 if below and tray.stage is Stage.FEEDING else None


def _story(tray: TrayState, came_from: str, units: Units) -> str:
    fed = ""
    if tray.feedings:
        fed = f" after {count(tray.feedings, 'feeding')}, {show_mass(tray.fed_kg, units)} of scraps"
    return f"Tray {tray.id} of {came_from}, as it stood{fed}."


def _worms_in(source: str, tray: str | None, split: Split) -> WormsAdded:
    return WormsAdded(
        at=split.at,
        worms_kg=split.worms_kg,
        tray=tray,
        source=source,
        counted=split.counted,
        note=split.note,
    )


def _refuse_impossible(profile: Profile, entries: Sequence[Entry], now: datetime) -> None:
    """What cannot have happened in this bin is not written. Raises `CannotSplit`."""
    found = new_findings(profile, profile.with_entries(entries), now)
    wrong = next((finding for finding in found if finding.severity is Severity.ERROR), None)
    if wrong is not None:
        name = clean(profile.bin.name, 40)
        raise CannotSplit("when", f"In {name}: {wrong.what} {wrong.to_do}".strip())


def new_findings(before: Profile, after: Profile, now: datetime) -> list[Finding]:
    """What does not add up in a journal with more entries, and did not need mending before."""
    known = replay_now(before, now).findings
    return [finding for finding in replay_now(after, now).findings if finding not in known]
