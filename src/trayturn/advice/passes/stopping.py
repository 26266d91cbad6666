"""When a separation is done: what is left in the tray, and whether the worms have nowhere lower to go."""

from __future__ import annotations

from trayturn.domain.entries import Amount
from trayturn.domain.stack import Separation, Stack
from trayturn.science.passes import LITTLE_LEFT

MUCH_LEFT = 0.5
"""The share of the tray's contents above which many worms on top have not gone down yet. Our choice."""

BY_WEIGHT = "(by weight, at the start and of each skim)"


def empty_kg(stack: Stack, tray_id: str) -> float:
    """What the empty tray weighs, kg, on the stack or off it."""
    tray = stack.tray(tray_id)
    return tray.empty_kg if tray is not None else stack.setup.tray_empty_kg


def lefts(sep: Separation, empty_kg: float) -> list[float] | None:
    """The share of the tray's contents left after each pass, 0 to 1; None where masses were not weighed."""
    if sep.gross_kg is None or sep.gross_kg <= empty_kg or not sep.passes:
        return None
    held, taken, found = sep.gross_kg - empty_kg, 0.0, []
    for done in sep.passes:
        if done.skimmed_kg is None:
            return None
        taken += done.skimmed_kg
        found.append(max(0.0, 1 - taken / held))
    return found


def weights_missing(sep: Separation, empty_kg: float) -> str:
    """Which weights are missing to know what is left: `2 of 3 skims not weighed`; empty where none is."""
    told = []
    if sep.gross_kg is None:
        told.append("no weight at Get ready")
    elif sep.gross_kg <= empty_kg:
        told.append("at Get ready no heavier than empty")
    skims, missing = len(sep.passes), sum(done.skimmed_kg is None for done in sep.passes)
    if missing:
        told.append("no skim weighed" if missing == skims else f"{missing} of {skims} skims not weighed")
    return ", ".join(told)


def _left_words(left: float) -> str:
    """`about 60 %`: no household scale, and no tray that dries meanwhile, tells it finer."""
    percent = 5 * round(20 * left)
    return f"about {percent} %" if percent else "less than 5 %"


def share_left(sep: Separation, empty_kg: float) -> float | None:
    """The share of the tray's contents not yet skimmed, 0 to 1; None where masses were not weighed."""
    found = lefts(sep, empty_kg)
    return found[-1] if found else None


def advised_to_stop(sep: Separation, empty_kg: float) -> tuple[bool, str]:
    """Whether the last pass says to stop, and the reason in words.

    The rule is common practice, no source: stop when many worms come off with the castings, or when little is
    left in the tray. Many worms on top of much that is left have only not gone down yet.
    """
    last = sep.passes[-1] if sep.passes else None
    left = share_left(sep, empty_kg)
    if last is not None and last.worms_seen is Amount.MANY:
        if left is not None and left > MUCH_LEFT:
            still = f"{_left_words(left)} is still in the tray {BY_WEIGHT}"
            return False, f"Many worms came off, but {still}: they had not gone down yet."
        return True, "Many worms came off in the skim: they have nowhere lower to go."
    if left is not None and left < LITTLE_LEFT:
        return True, f"Little is left in the tray: {_left_words(left)} of what it held {BY_WEIGHT}."
    seen = "No worms" if last is None or last.worms_seen is Amount.NONE else "Few worms"
    return False, f"{seen} came off in the skim, and there is more to take."
