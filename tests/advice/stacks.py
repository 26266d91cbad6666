"""Stacks in any state that a journal can bring about, as a keeper could leave them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hypothesis import strategies as st

from tests.builders import a_profile, entry, fed, moment, started, turned
from trayturn.advice.turning import fresh_entry, next_turn, turn_entries
from trayturn.domain.entries import Entry
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

LATE = 200.0


@dataclass(frozen=True)
class Case:
    """A bin and its stack, long after its last entry."""

    profile: Profile

    @property
    def stack(self) -> Stack:
        return replay(self.profile, moment(LATE))


def of_stages(stages: str, *, trays: str = "ABCDE", **setup: Any) -> Case:
    """A stack by one letter a tray, A, B, C and so on from the bottom up: b bedding, f feeding, d finishing.

    Each tray was started a day after the one above it. The stages are those of day 100.
    """
    words = {"b": "bedding", "f": "feeding", "d": "finishing"}
    names = "ABCDEFGH"[: len(stages)]
    entries: list[Entry] = [started(name, day, level=1) for day, name in enumerate(reversed(names))]
    given = {name: words[letter] for name, letter in zip(names, stages, strict=True)}
    if entries:
        entries.append(turned(names, 100, **given))
    return Case(a_profile(*entries, trays=trays, **setup))


def turn_over(case: Case, day: float = LATE) -> Stack:
    """The stack once the turn and every separation are over, and the leaving tray is back if it is to be."""
    stack = case.stack
    turn = next_turn(stack)
    profile = case.profile.with_entries(turn_entries(stack, moment(day)))
    for leaving in [move.tray for move in turn.moves if move.to_level is None]:
        begin = [] if stack.separation(leaving) else [entry("separation_begun", day, tray=leaving)]
        profile = profile.with_entries([*begin, entry("separation_ended", day, tray=leaving)])
    after = replay(profile, moment(day))
    fresh = after.tray(turn.fresh) if turn.fresh else None
    if fresh is not None and not fresh.on_stack:
        after = replay(profile.with_entries([fresh_entry(after, turn, moment(day))]), moment(day))
    return after


@st.composite
def cases(draw: st.DrawFn) -> Case:
    """Up to six trays in any stages, with any pattern and set, perhaps with one being separated."""
    names = "ABCDEF"[: draw(st.integers(0, 6))]
    entries: list[Entry] = [
        started(name, draw(st.integers(0, 50)), level=1, stage=draw(st.sampled_from([None, "feeding"])))
        for name in names
    ]
    for day in (60, 100) if names else ():
        order = draw(st.permutations(names))
        given = {name: draw(st.sampled_from(["bedding", "feeding", "finishing"])) for name in names}
        entries.append(turned(order, day, **given))
    entries += [fed(name, draw(st.integers(101, 150))) for name in names if draw(st.booleans())]
    if names and draw(st.booleans()):
        entries.append(entry("separation_begun", 160, tray=draw(st.sampled_from(names))))
    listed = draw(st.sampled_from(["", names, "ABCDEF", "ABCDEFG"]))
    pattern = draw(st.sampled_from(["bedding_below", "straight_up"]))
    return Case(a_profile(*entries, trays=listed, pattern=pattern, tray_count=draw(st.integers(1, 6))))
