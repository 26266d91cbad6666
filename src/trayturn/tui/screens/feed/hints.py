"""The two lines below the meal: what is worth knowing of the marked row, and what the keys do with it."""

from __future__ import annotations

from trayturn.advice.composing.composed import Composed
from trayturn.advice.composing.draft import ALONE, Line
from trayturn.advice.composing.telling import of_line
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean
from trayturn.tui.screens.feed.desk import HANDFUL
from trayturn.tui.screens.feed.rows import ADD, MORE, PROPOSED, SHARE

OTHERS = {
    ADD: ("Enter or a. Names of late come first,", "then your own, then the table."),
    MORE: ("Enter: keep this meal, set measures", "and goals, or feed by form."),
    PROPOSED: ("Enter takes it. It then follows the", "scraps until you change it by hand."),
    SHARE: ("What spoils first goes in now; the", "rest waits in the caddy."),
}


def hint(made: Composed, key: str) -> tuple[str, str]:
    """Both lines for the row of a key."""
    if key == PROPOSED and made.proposal.short:
        return f"{made.proposal.short[0]}.", "Enter takes it all the same."
    if key == PROPOSED and made.draft.follows:
        return "It follows the scraps until you", "change bedding or cover by hand."
    if key in OTHERS:
        return OTHERS[key]
    line = made.draft.at(key)
    return ("", "") if line is None else (of_line(line, made.ground), _keys(line, made))


def _keys(line: Line, made: Composed) -> str:
    units = made.ground.units
    if line.waits_kg > 0:
        return f"{show_mass(line.waits_kg, units)} of it waits in the caddy."
    if line.kg == 0 and line.last_kg:
        return f"+ puts in {show_mass(line.last_kg, units)}, as last time."
    if line.part in ALONE:
        return "+ and - step it, Enter types it."
    word = line.measure or HANDFUL
    weighed = made.ground.measures.weigh(word, line.name)
    if weighed is None:
        return "+ and - step it, Enter types it."
    whose = "yours" if weighed.own else "rule of thumb"
    return f"1-9: {clean(word, 10)}s of {show_mass(weighed.kg, units)} ({whose})."
