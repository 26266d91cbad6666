"""What to look for in the first weeks of a new bin: one look at a time, and none once they are over."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.due.item import Due, Press, due_at
from trayturn.advice.pages import Page
from trayturn.advice.phrases import since
from trayturn.advice.reading import LIMITS_SOURCE
from trayturn.domain.stack import Stack, days_between
from trayturn.domain.words import due as in_days


@dataclass(frozen=True, slots=True)
class Look:
    """One look, so many days after the worms went in. The days are our choice."""

    code: str
    day: float
    what: str
    why: tuple[str, ...]


LOOKS = (
    Look(
        "day-1",
        1,
        "Lift the lid and see where the worms are",
        (
            "In the first nights some climb the walls or sit under the lid: a new bin is strange to them "
            "(RecycleWorks, San Mateo).",
            "Put them back, leave a light on above it, and wait: common practice, no source.",
            "If most of them leave, look for what drives them: too wet or too dry, too warm, a sour smell.",
            "The bedding is right when a fistful holds together and gives a drop or two: common practice, no "
            "source.",
        ),
    ),
    Look(
        "day-3",
        3,
        "See whether the first meal is being worked",
        (
            "Lift the cover: worms are in or under the scraps, or the scraps lie as you left them. Either is "
            "well so early: wait, and add nothing on top. Common practice, no source.",
            "It smells of earth or of nothing. If it smells rotten, feed nothing for a week, loosen it daily "
            "and mix in dry bedding (Oregon Metro; RecycleWorks, San Mateo).",
        ),
    ),
    Look(
        "week-1",
        7,
        "Squeeze the bedding and smell it",
        (
            "Crumbles: pour on a little water. Runs: mix in dry shreds, and lift the lid for a while "
            "(Euless, Texas, after Appelhof).",
            "Once the first meal is mostly gone, feed the next, half a full one. If it is not, wait: the "
            "worms set the pace.",
            f"Worms live at 60 to 90 % moisture ({LIMITS_SOURCE}).",
        ),
    ),
    Look(
        "week-2",
        14,
        "Look into the sump, and at what is left of the scraps",
        (
            "A few drops are well. More means wet scraps on little bedding: add dry shreds.",
            "Worms in the sump go back into the tray. Many of them mean that something is wrong above: "
            "common practice, no source.",
            "Scraps that still lie as they did after three weeks come out (trade advice).",
        ),
    ),
    Look(
        "week-4",
        28,
        "Look for cocoons and thin young worms",
        (
            "Cocoons of Eisenia fetida take about 25 days at 20 °C (68 °F), so the first thin, pale young "
            "may show about now, or later where it is cooler. For other species, trayturn hatch tells.",
            "If meals go in their time, feed full ones from here on.",
            "Nothing young yet is no alarm where it is cool, or where the worms were young themselves.",
        ),
    ),
)
OVER_DAYS = 42.0
"""When the last look has gone by. Our choice."""
AHEAD_DAYS = 2.0
"""How long before its day a look is told of. Our choice."""
NEW_DAYS = 28.0
"""Worms put in later than this after the bin began are not its first. Our choice."""


def first_weeks(stack: Stack) -> Iterator[Due]:
    """The look whose day has come, or else the next, shortly before it. A later one replaces one not done."""
    begun = first_day(stack)
    if begun is None:
        return
    age = days_between(begun, stack.as_of)
    looks = [look for look in _left(stack, begun) if look.day >= age or look is _latest(age)]
    if looks and age < OVER_DAYS and looks[0].day - age <= AHEAD_DAYS:
        yield _due(looks[0], begun, stack)


def first_day(stack: Stack) -> datetime | None:
    """The moment that the first weeks are counted from: the first worms, or the first tray; None once over.

    None for a bin that has been turned or separated, and where worms were first written down long after the
    bin began.
    """
    tray, worms = stack.first_tray_at, stack.first_worms_at
    if not stack.trays or stack.turns or stack.separations or stack.past_separations:
        return None
    begun = max(worms, tray) if worms is not None and tray is not None else tray
    began = stack.began_at
    if begun is None or began is None or days_between(began, begun) > NEW_DAYS:
        return None
    return begun


def look_of(code: str) -> Look | None:
    """The look of that code."""
    return next((look for look in LOOKS if look.code == code), None)


def _latest(age: float) -> Look | None:
    """The look whose day came last."""
    return next((look for look in reversed(LOOKS) if look.day <= age), None)


def _left(stack: Stack, begun: datetime) -> list[Look]:
    """Looks that are not done, after the last one that is: by the keeper's word, or by a check since."""
    done = [place for place, look in enumerate(LOOKS, 1) if _is_done(look, stack, begun)]
    return list(LOOKS[max(done, default=0) :])


def _is_done(look: Look, stack: Stack, begun: datetime) -> bool:
    if f"watch:{look.code}" in stack.done:
        return True
    checked = stack.last_check_at
    return checked is not None and checked >= begun + timedelta(days=look.day)


def _due(look: Look, begun: datetime, stack: Stack) -> Due:
    due = begun + timedelta(days=look.day)
    now = due <= stack.as_of
    since_when = since(begun, stack.as_of)
    why = (*look.why, f"Counted from when the bin had its tray and its worms, {since_when}.")
    day = in_days(due, stack.as_of).capitalize()
    what = f"{look.what}." if now else f"{day}: {look.what[:1].lower()}{look.what[1:]}."
    press = Press.NOW if now else Press.LATER
    return due_at(stack, "watch", what, why, due, press=press, code=look.code, page=Page.STARTING)
