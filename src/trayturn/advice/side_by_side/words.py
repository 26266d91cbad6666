"""The order of work in words: what to do now, what next, who waits, and when all is done."""

from __future__ import annotations

from trayturn.advice.side_by_side.plan import Planned, SideBySide, Wait
from trayturn.domain.words import clock

DO = {
    "loosen": "loosen",
    "skim": "skim",
    "decide": "decide about",
    "settle": "settle and clean up",
    "clean up": "clean up",
    "get ready": "get ready for",
}
BARE_MIN = 60
"""More than an hour of light is said to paralyse worms (extension hand-out)."""


def lines(plan: SideBySide, *, several: bool = True) -> list[str]:
    """A few sentences, the most pressing first."""
    if not plan.slots:
        return []
    first = plan.slots[0]
    if plan.free_min >= 1:
        told = [f"Hands are free until {clock(first.start, plan.now)}: then {what(first)}."]
    else:
        told = [f"Now {what(first)}."]
    following = next((slot for slot in plan.slots[1:] if slot is not first), None)
    if following is not None:
        told.append(f"At {clock(following.start, plan.now)} {what(following)}.")
    told += [waits_words(wait) for wait in plan.waits]
    return [*told, done_words(plan)] if several else [done_words(plan)]


def waits_words(wait: Wait) -> str:
    """That a rest lasts longer, and what to mind where it does so for an hour."""
    told = f"The rest of tray {wait.tray} lasts {wait.minutes:.0f} min longer: hands are not free before."
    bare = " Cover it meanwhile: more than an hour of light is said to paralyse worms."
    return told + (bare if wait.in_all > BARE_MIN else "")


def what(slot: Planned) -> str:
    """`skim tray C in Pantry`."""
    return f"{DO[slot.what]} tray {slot.tray} in {slot.name}"


def done_words(plan: SideBySide) -> str:
    """When everything will be done, as a band of clock times."""
    low, mid, high = (clock(moment, plan.now) for moment in plan.done)
    band = f"between {low} and {high}" if low != high else f"about {mid}"
    best = "" if plan.proved else "; a good order, perhaps not the best"
    return f"All done {band}, likeliest {mid}{best}."
