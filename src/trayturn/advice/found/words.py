"""What goes round and what does not belong, in words: a line for a row, and its story."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from trayturn.advice.found.kinds import REMEDIES, counted
from trayturn.advice.found.overs import Going, Went
from trayturn.advice.found.sources import KindFound, Noted, Source, State
from trayturn.advice.phrases import since, when
from trayturn.domain.entries import Contaminant
from trayturn.domain.lots import Over
from trayturn.domain.setup import Units
from trayturn.domain.stack import days_between
from trayturn.domain.units import show_length
from trayturn.domain.words import clean, count, day, listed

NOTHING_YET = (
    "Nothing was written down yet that goes round again or does not belong.",
    "",
    "Pieces carried on from one tray to the next will stand here with how many turns they survived; and "
    "stickers, tape or plastic with what they came in with, so that it stops coming in.",
)
UNKNOWN_SOURCE = "not known from where"
NAMELESS = "Write down what it came in with when the next is found: only then can it be stopped."


def over_name(over: Over, units: Units) -> str:
    """`2 x avocado stone, 4 cm`."""
    size = f", {show_length(over.size_cm / 100, units)}" if over.size_cm else ""
    return f"{over.count} x {clean(over.what, 40)}{size}"


def over_story(going: Going, now: datetime, units: Units) -> list[str]:
    """All about pieces that lie in a tray."""
    over = going.over
    usual = f"{going.usual.what} ({going.usual.source})" if going.usual is not None else ""
    lines = [
        f"{over_name(over, units)}, in tray {over.tray}: carried on {_times(over.turns)}, "
        f"{since(over.first_at, now)}, last {when(over.last_at, now)}.",
        going.do,
        usual or "What usually becomes of such is not known here.",
        went_line(going.before) if going.before is not None else "",
    ]
    return [line for line in lines if line]


def _times(number: int) -> str:
    return {1: "once", 2: "twice"}.get(number, f"{number} times")


def went_line(one: Went) -> str:
    """`Your bin had such 2 times before: not carried on any more after 1 to 3 turns, 60 to 182 days.`"""
    seen = "such" if one.times == 1 else f"such {one.times} times"
    return f"Your bin had {seen} before: {_went(one)}."


def went_words(one: Went) -> str:
    """`mango stone, 2 times: not carried on any more after 1 to 3 turns, 60 to 182 days`"""
    times = f", {one.times} times" if one.times > 1 else ""
    return f"{clean(one.what, 40)}{times}: {_went(one)}"


def _went(one: Went) -> str:
    turns = _band(*one.turns, "turn")
    return f"not carried on any more after {turns}, {_band(round(one.days[0]), round(one.days[1]), 'day')}"


def _band(low: int, high: int, noun: str) -> str:
    return count(low, noun) if low == high else f"{low} to {count(high, noun)}"


def source_name(source: Source) -> str:
    """Its name, or that it is not known."""
    return clean(source.name, 40) if source.key else UNKNOWN_SOURCE


def amount_words(kinds: Mapping[Contaminant, int]) -> str:
    """`12 stickers and 1 piece of tape`, `nothing`."""
    return listed(counted(kinds)) or "nothing"


def state_words(source: Source, now: datetime) -> str:
    """`open`, `stopped since Tue 3 Mar, nothing more found`, `came again after you stopped it on ...`."""
    if source.state is State.STOPPED and source.stopped_at is not None:
        return f"stopped {_since(source.stopped_at, now)}, nothing more found"
    if source.state is State.AGAIN and source.stopped_before is not None:
        return f"came again {when(source.last_at, now)}, after you stopped it ({_day(source.stopped_before)})"
    return "not known" if source.state is State.UNKNOWN else "still open"


def _since(moment: datetime, now: datetime) -> str:
    days = int(days_between(moment, now))
    return f"since {day(moment, now)}" + (f", {count(days, 'day')}" if days > 1 else "")


def _day(moment: datetime) -> str:
    return f"{moment.day} {moment:%b %Y}"


def source_story(source: Source, now: datetime) -> list[str]:
    """All about one source: how much, since when, whether it stopped, and what to do about each kind."""
    tray = f", in tray {source.last_tray}" if source.last_tray else ""
    in_all = f" {amount_words(source.ever).capitalize()} in all, since {_day(source.first_at)}."
    more = in_all if dict(source.ever) != dict(source.year) else ""
    name = source_name(source)
    lines = [
        f"{name[:1].upper()}{name[1:]}: {amount_words(source.year)} within a year, last found "
        f"{when(source.last_at, now)}{tray}.{more}",
        NAMELESS if not source.key else f"This source: {state_words(source, now)}.",
    ]
    return [*lines, *(remedy_line(kind) for kind in source.ever)]


def remedy_line(kind: Contaminant) -> str:
    """What to do about one kind, why, and who says so."""
    one = REMEDIES[kind]
    return f"{one.several[:1].upper()}{one.several[1:]}: {one.do}. {one.why} ({one.source})"


def kind_line(found: KindFound, now: datetime) -> str:
    """`12 stickers within a year, last on Tue 3 Mar, 20 days ago`."""
    return (
        f"{REMEDIES[found.kind].counted(found.year)} within a year, last {when(found.last_at, now)}"
        if found.year
        else f"no {REMEDIES[found.kind].one} within a year, last {when(found.last_at, now)}"
    )


def noted_words(one: Noted) -> str:
    """`pieces: corn cobs; found: fruit stickers`, shortened by whoever draws it."""
    parts = (("pieces", one.overs), ("found", one.contaminants))
    return "; ".join(f"{what}: {clean(text, 200)}" for what, text in parts if text)


def noted_story(one: Noted, now: datetime) -> list[str]:
    """A note of a pass, and why it is in no count."""
    return [
        f"Written of a pass with tray {one.tray}, {when(one.at, now)}: {noted_words(one)}.",
        "These are words only: they are in no count and belong to no source. Logged as found, with a number "
        "and a source, the next can be stopped where it comes in.",
    ]
