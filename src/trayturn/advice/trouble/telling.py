"""The finder's answer in words: one line a cause, and the whole story of one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta

from trayturn.advice.cautions import CAUTIONS, Caution
from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.follow_up import due_days, open_follow_up
from trayturn.advice.trouble.parts import Found, Remedy, Says
from trayturn.advice.trouble.ranking import Ranked, Reason, rank, tells_most
from trayturn.advice.trouble.seen import Tick
from trayturn.domain.words import clean, count, day

NO_SIGNS = "No sign is ticked, so no cause is named."
NO_JOURNAL = "Nothing is written down for this bin yet: this rests on the signs alone."
HOW = (
    "A cause is named where a sign you ticked speaks for it; your journal moves it up or down. Strong signs "
    "count three, fair ones two, slight ones one: these weights are our choice, none is published."
)
HEADS = {
    Says.FOR: "For it",
    Says.AGAINST: "Against it",
    Says.NEITHER: "Says nothing either way",
    Says.UNKNOWN: "Not known",
}


@dataclass(frozen=True, slots=True)
class Answer:
    """The whole answer: the causes ranked, and the check that would tell the most, as an instruction."""

    ranked: tuple[Ranked, ...]
    tells_most: str
    rests_on_signs_alone: bool


def answer(case: Case, ticks: Sequence[Tick], found: Mapping[str, Found]) -> Answer:
    """What the ticked signs and the journal come to."""
    ranked = rank(ticks, found)
    check = tells_most(ranked, found)
    alone = not (case.stack.trays or case.checks or case.fed)
    return Answer(tuple(ranked), str(check) if check else "", alone)


def remedies(one: Ranked, case: Case, ticks: Sequence[Tick]) -> list[tuple[Remedy, str]]:
    """What to do in order, each with its amount for this bin where one can be reckoned."""
    ticked = {tick.sign for tick in ticks}
    wanted = [r for r in one.cause.remedies if not r.signs or ticked & set(r.signs)]
    return [(remedy, remedy.amount(case) if remedy.amount else "") for remedy in wanted]


def cautions(one: Ranked, ticks: Sequence[Tick]) -> list[Caution]:
    """What to mind at that work, in the order of the list of cautions."""
    codes = set(one.cause.cautions)
    ticked = {tick.sign for tick in ticks}
    for sign, code in {"mould": "mould", "mice": "rodents", "flatworms": "flatworms"}.items():
        codes |= {code} if sign in ticked else set()
    codes |= {"ammonia"} if "smell-ammonia" in ticked else set()
    return [caution for caution in CAUTIONS if caution.code in codes]


def gist(one: Ranked) -> str:
    """`2 for, 1 against, 3 not known`."""
    numbers = {says: len(one.of(says)) for says in (Says.FOR, Says.AGAINST, Says.UNKNOWN)}
    return ", ".join(f"{number} {says}" for says, number in numbers.items() if number)


def story(one: Ranked, case: Case, ticks: Sequence[Tick]) -> list[str]:
    """The whole of one cause: why it is, what speaks for and against, what to do, and what to expect."""
    lines = [f"{str(one.rank).capitalize()}. {one.cause.why}"]
    taken = open_follow_up(one.cause, case)
    if taken is not None:
        lines.append(f"On the due list for {day(taken.due, case.now)} already: {clean(taken.what, 200)}")
    for says, head in HEADS.items():
        reasons = one.of(says)
        if reasons:
            lines += ["", head, *(line for reason in reasons for line in _reason(reason))]
    lines += ["", "What to do", *_to_do(one, case, ticks), "", *_expect(one, case)]
    minded = [f"- {caution.title}. {caution.to_do}" for caution in cautions(one, ticks)]
    return [*lines, "", "Mind", *minded] if minded else lines


def _reason(reason: Reason) -> Iterator[str]:
    told = f" To know it, {reason.check}." if reason.says is Says.UNKNOWN and reason.check else ""
    source = "" if reason.says is Says.UNKNOWN else f" [{reason.source.told}]"
    yield f"{_mark(reason)} {reason.words}{told}{source}"
    for line in reason.rests_on:
        yield f"  {line}"


def _mark(reason: Reason) -> str:
    """As many signs as it has points, so that the weight is seen: `++`, `-`; `=` where it says nothing."""
    if not reason.points:
        return "?" if reason.says is Says.UNKNOWN else "="
    return ("+" if reason.points > 0 else "-") * abs(reason.points)


def _to_do(one: Ranked, case: Case, ticks: Sequence[Tick]) -> Iterator[str]:
    for number, (remedy, amount) in enumerate(remedies(one, case, ticks), 1):
        yield f"{number}. {remedy.do} [{remedy.source.told}]"
        if amount:
            yield f"   {amount}"


def _expect(one: Ranked, case: Case) -> Iterator[str]:
    expect, days = one.cause.expect, due_days(one.cause, case)
    look = day(case.now + timedelta(days=days), case.now)
    yield f"What to expect: {expect.words} [{expect.source.told}]"
    yield f"Look again {look} ({count(days, 'day')}): {one.cause.look}"
    yield f"When to worry: {one.cause.worry}"


def headline(one: Ranked) -> str:
    """`most likely: Too wet`."""
    return f"{one.rank}: {one.cause.title}"
