"""The end of a separation: what came of it, and what is next."""

from __future__ import annotations

from trayturn.advice.came_out import came_out_lines
from trayturn.advice.passes import next_time, next_words
from trayturn.domain.entries import Amount, Outcome, OversCarried, WormsRemoved
from trayturn.domain.setup import Units
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean, count, span

SEEN = {Amount.NONE: "no worms seen", Amount.FEW: "few worms seen", Amount.MANY: "many worms seen"}


def pass_lines(sep: Separation, units: Units) -> list[str]:
    """One line a pass: what came off and what was seen."""
    lines = []
    for done in sep.passes:
        mass = f"about {show_mass(done.skimmed_kg, units)} skimmed, " if done.skimmed_kg else ""
        extra = f", found {clean(done.contaminants, 60)}" if done.contaminants else ""
        extra += f": {clean(done.note, 60)}" if done.note else ""
        lines.append(f"Pass {done.pass_number}: {mass}{SEEN[done.worms_seen]}{extra}.")
    return lines


def summary(sep: Separation, units: Units) -> list[str]:
    """The whole separation in a few sentences."""
    return [*outcome_lines(sep, units), *pass_lines(sep, units)]


def outcome_lines(sep: Separation, units: Units) -> list[str]:
    """How it ended, and where everything went."""
    if sep.outcome is Outcome.PUT_BACK:
        return [f"Tray {sep.tray} went back to its level to finish longer."]
    took = f" in {span(sep.ended_at - sep.begun_at)}" if sep.ended_at else ""
    lines = [f"Tray {sep.tray} was separated in {count(len(sep.passes), 'pass', 'passes')}{took}."]
    if sep.settled is not None:
        mass = sep.settled.castings_kg
        lines.append(
            f"Castings: {show_mass(mass, units)}, weighed." if mass else "The castings were not weighed."
        )
        lines += [f"{what} went to: {clean(place, 60)}." for what, place in _places(sep) if place]
    return lines


def _places(sep: Separation) -> tuple[tuple[str, str], ...]:
    """Where things went by the keeper's word; what an entry of its own tells is not said twice."""
    if sep.settled is None:
        return ()
    moved = any(isinstance(entry, WormsRemoved) for entry in sep.came_out)
    carried = any(isinstance(entry, OversCarried) for entry in sep.came_out)
    return (
        ("Worms", "" if moved else sep.settled.worms_to),
        ("The rest", sep.settled.rest_to),
        ("Pieces", "" if carried else sep.settled.overs_to),
    )


def whole_summary(stack: Stack, sep: Separation) -> list[str]:
    """The same with all that came out of the tray, and what its passes tell of the next one."""
    return [
        *outcome_lines(sep, stack.setup.units),
        *came_out_lines(stack, sep),
        *(next_words(next_time(stack)) if sep.passes else ()),
    ]
