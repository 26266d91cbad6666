"""Causes ranked by the signs that are ticked and by what the bin's own journal says.

A cause is named only where a ticked sign speaks for it. Its points are the sum of those of its signs and of
the answers of the journal; each weight is our choice, since none is published, so that only words are shown.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.causes import CAUSES, EVIDENCE
from trayturn.advice.trouble.parts import Cause, Check, Found, Says, Source
from trayturn.advice.trouble.seen import Tick
from trayturn.advice.trouble.signs import SIGN

LIKELY, POSSIBLE, CLOSE = 3, 1, 1
"""The points of what may be called most likely, and of what is possible; and how close to the best one the
most likely are. Our choice."""


AT_ONCE = (Check.SQUEEZE, Check.THERMOMETER, Check.PH, Check.SUMP, Check.WORMS)
"""Checks that can be made standing at the bin. What was fed can only be written down from now on."""


class Rank(StrEnum):
    """How likely a cause is, no finer than the rules are."""

    LIKELY = "most likely"
    POSSIBLE = "possible"
    UNLIKELY = "unlikely"


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason for or against a cause, with its points and its source, and the entries it rests on."""

    says: Says
    words: str
    points: int
    source: Source
    rests_on: tuple[str, ...] = ()
    check: Check | None = None


@dataclass(frozen=True, slots=True)
class Ranked:
    """A cause with its rank and all that speaks for and against it."""

    cause: Cause
    points: int
    rank: Rank
    reasons: tuple[Reason, ...]

    def of(self, says: Says) -> tuple[Reason, ...]:
        return tuple(reason for reason in self.reasons if reason.says is says)


def answers(case: Case) -> dict[str, Found]:
    """What the journal says to every question, by its code. The ticks do not change it."""
    return {code: evidence.find(case) for code, evidence in EVIDENCE.items()}


def rank(ticks: Iterable[Tick], found: Mapping[str, Found]) -> list[Ranked]:
    """The causes that the ticked signs speak for, the likeliest first. None without signs."""
    by_sign = {tick.sign: tick for tick in ticks}
    weighed = [(cause, _reasons(cause, by_sign, found)) for cause in CAUSES if _is_named(cause, by_sign)]
    scored = [(cause, reasons, sum(reason.points for reason in reasons)) for cause, reasons in weighed]
    best = max((points for *_, points in scored), default=0)
    ranked = [Ranked(cause, points, _rank(points, best), reasons) for cause, reasons, points in scored]
    return sorted(ranked, key=lambda one: -one.points)


def _is_named(cause: Cause, ticks: Mapping[str, Tick]) -> bool:
    return any(speaks.sign in ticks and speaks.points > 0 for speaks in cause.speaks)


def _rank(points: int, best: int) -> Rank:
    if points >= LIKELY and points >= best - CLOSE:
        return Rank.LIKELY
    return Rank.POSSIBLE if points >= POSSIBLE else Rank.UNLIKELY


def _reasons(cause: Cause, ticks: Mapping[str, Tick], found: Mapping[str, Found]) -> tuple[Reason, ...]:
    reasons = [*_of_signs(cause, ticks, found), *_of_journal(cause, ticks, found)]
    return tuple(sorted(reasons, key=lambda reason: -abs(reason.points)))


def _of_signs(cause: Cause, ticks: Mapping[str, Tick], found: Mapping[str, Found]) -> Iterator[Reason]:
    """A sign ticked from a reading that speaks here by itself adds nothing to it: it is the same reading."""
    told = {ask.evidence.code for ask in cause.asks if found[ask.evidence.code].says is Says.FOR}
    for speaks in cause.speaks:
        sign, tick = SIGN[speaks.sign], ticks.get(speaks.sign)
        if tick is not None and not (tick.said and sign.reading in told):
            words = f"{sign.sentence}{f' ({tick.said})' if tick.said else ''}"
            says = Says.AGAINST if speaks.against else Says.FOR
            yield Reason(says, words, speaks.points, speaks.source)


def _of_journal(cause: Cause, ticks: Mapping[str, Tick], found: Mapping[str, Found]) -> Iterator[Reason]:
    """What the keeper sees now overrules an older reading of the same thing that says otherwise."""
    now = {SIGN[tick.sign].reading for tick in ticks.values() if not tick.said}
    for ask in cause.asks:
        answer, evidence = found[ask.evidence.code], ask.evidence
        overruled = answer.says is Says.AGAINST and evidence.code in now
        points = 0 if overruled else ask.points(answer.says)
        says = answer.says if points or answer.says is Says.UNKNOWN else Says.NEITHER
        words = f"What you see now overrules it: {answer.words}" if overruled else answer.words
        yield Reason(says, words, points, evidence.source, answer.rests_on, evidence.check)


def tells_most(ranked: Iterable[Ranked], found: Mapping[str, Found]) -> Check | None:
    """The one check at the bin that could move the causes not ruled out the most; None where none would.

    It is the one whose unanswered questions carry the most points, for and against, over those causes.
    """
    worth: dict[Check, int] = {}
    for ask in (ask for one in ranked if one.rank is not Rank.UNLIKELY for ask in one.cause.asks):
        check = ask.evidence.check
        if found[ask.evidence.code].says is Says.UNKNOWN and check in AT_ONCE:
            worth[check] = worth.get(check, 0) + ask.if_for + ask.if_against
    return max(worth, key=lambda check: worth[check], default=None)
