"""Whether the readings taken can be saved, and what is said once they are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.checking.judging import first_to_do, judge_all
from trayturn.advice.checking.kinds import LABELS, Kind, fields_of, said
from trayturn.advice.checking.plausible import Doubt
from trayturn.advice.checking.scene import Scene
from trayturn.domain.entries import Checked
from trayturn.tui.screens.check.draft import Draft

NOTHING = "Nothing is read yet: digits pick a word, - and + step a number, Enter types."
MEND = "Not saved: mend the row with the x, or clear it with 0."
SURE = "Look at the row with the question mark. Space once more saves it as it is."


@dataclass(frozen=True, slots=True)
class Obstacle:
    """Why nothing is saved yet, which row it is about, and whether the same key once more saves it."""

    words: str
    kind: Kind | None = None
    may_insist: bool = False


def obstacle(draft: Draft, doubts: Mapping[Kind, Doubt]) -> Obstacle | None:
    """What stands in the way of saving: nothing read, a row that cannot be, or one that hardly can."""
    if draft.empty:
        return Obstacle(NOTHING)
    order = list(Kind)
    refused = [*draft.faults, *(kind for kind, one in doubts.items() if one.impossible)]
    if refused:
        return Obstacle(MEND, min(refused, key=order.index))
    return Obstacle(SURE, min(doubts, key=order.index), True) if doubts else None


def entry_of(draft: Draft, scene: Scene, now: datetime) -> Checked:
    """All that was read as one check."""
    tray = scene.tray.id if scene.tray is not None else None
    return Checked(at=now, tray=tray, **fields_of(draft.values))


def saved_words(draft: Draft, scene: Scene) -> tuple[str, str]:
    """What was saved, and what to do first about it, a sentence each."""
    verdicts = judge_all(scene.taking(draft.values))
    first = first_to_do(verdict for kind, verdict in verdicts.items() if kind in draft.values)
    told = ", ".join(
        said(kind, value, scene.units)
        if kind in (Kind.PH, Kind.MOISTURE, Kind.TEMPERATURE)
        else f"{LABELS[kind].lower()} {said(kind, value, scene.units)}"
        for kind, value in draft.values.items()
    )
    return f"Saved: {told}.", f"First: {first}" if first else "Nothing needs doing."
