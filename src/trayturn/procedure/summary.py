"""The end of a separation: what came of it, and what is next."""

from __future__ import annotations

from trayturn.domain.entries import Amount, Outcome
from trayturn.domain.setup import Units
from trayturn.domain.stack import Separation
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean, count, span

SEEN = {Amount.NONE: "no worms seen", Amount.FEW: "few worms seen", Amount.MANY: "many worms seen"}


def pass_lines(sep: Separation, units: Units) -> list[str]:
    """One line a pass: what came off and what was seen."""
    lines = []
    for done in sep.passes:
        mass = f"about {show_mass(done.skimmed_kg, units)} skimmed, " if done.skimmed_kg else ""
        extra = f", found {clean(done.contaminants, 60)}" if done.contaminants else ""
        lines.append(f"Pass {done.pass_number}: {mass}{SEEN[done.worms_seen]}{extra}.")
    return lines


def summary(sep: Separation, units: Units) -> list[str]:
    """The whole separation in a few sentences."""
    if sep.outcome is Outcome.PUT_BACK:
        return [f"Tray {sep.tray} went back to its level to finish longer.", *pass_lines(sep, units)]
    took = f" in {span(sep.ended_at - sep.begun_at)}" if sep.ended_at else ""
    lines = [f"Tray {sep.tray} was separated in {count(len(sep.passes), 'pass', 'passes')}{took}."]
    if sep.settled is not None:
        mass = sep.settled.castings_kg
        lines.append(
            f"Castings: {show_mass(mass, units)}, weighed." if mass else "The castings were not weighed."
        )
        places = (
            ("Worms", sep.settled.worms_to),
            ("The rest", sep.settled.rest_to),
            ("Overs", sep.settled.overs_to),
        )
        lines += [f"{what} went to: {clean(place, 60)}." for what, place in places if place]
    return [*lines, *pass_lines(sep, units)]
