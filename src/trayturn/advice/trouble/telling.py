"""The finder's answer in words: one line a cause, and the whole story of one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta

from trayturn.advice.cautions import CAUTIONS, Caution
from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.follow_up import due_days, open_follow_up
from trayturn.advice.trouble.parts import NAMELESS, Found, Remedy, Says, Source, Sure
from trayturn.advice.trouble.ranking import Ranked, Reason, rank, tells_most
from trayturn.advice.trouble.seen import Tick
from trayturn.advice.trouble.sources import OURS
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


class Sources:
    """The sources of one story, numbered as they come; where nobody can be named, by their kind."""

    def __init__(self) -> None:
        self.named: list[Source] = []
        self.kinds: list[Sure] = []

    def mark(self, source: Source) -> str:
        if source.sure in NAMELESS:
            if source.sure not in self.kinds:
                self.kinds.append(source.sure)
            return f"[{source.sure}]"
        if source not in self.named:
            self.named.append(source)
        return f"[{self.named.index(source) + 1}]"

    def lines(self) -> list[str]:
        named = [f"[{number}] {source.told}" for number, source in enumerate(self.named, 1)]
        return [*named, *(f"[{kind}] {NAMELESS[kind]}" for kind in self.kinds)]


def story(one: Ranked, case: Case, ticks: Sequence[Tick]) -> list[str]:
    """The whole of one cause: why it is, what speaks for and against, what to do, and what to expect."""
    sources = Sources()
    lines = [f"{str(one.rank).capitalize()}. {one.cause.why}"]
    taken = open_follow_up(one.cause, case)
    if taken is not None:
        lines.append(f"On the due list for {day(taken.due, case.now)} already: {clean(taken.what, 200)}")
    for says in (Says.FOR, Says.AGAINST, Says.UNKNOWN):
        lines += _said(one, says, sources)
    lines += ["", "What to do", *_to_do(one, case, ticks, sources), "", *_expect(one, case, sources)]
    minded = [f"- {caution.title}. {caution.to_do}" for caution in cautions(one, ticks)]
    lines += ["", "Mind", *minded, *_said(one, Says.NEITHER, sources)]
    return [*lines, "", "Sources", *sources.lines()]


def _said(one: Ranked, says: Says, sources: Sources) -> list[str]:
    reasons = one.of(says)
    return (
        ["", HEADS[says], *(line for reason in reasons for line in _reason(reason, sources))]
        if reasons
        else []
    )


def _reason(reason: Reason, sources: Sources) -> Iterator[str]:
    if reason.says is Says.UNKNOWN:
        yield f"? {reason.words} To know it, {reason.check}."
        return
    yield f"{_mark(reason)} {reason.words} {sources.mark(reason.source)}"
    for line in reason.rests_on:
        yield f"  {line}"


def _mark(reason: Reason) -> str:
    """As many signs as it has points, so that the weight is seen: `++`, `-`; `=` where it says nothing."""
    return ("+" if reason.points > 0 else "-") * abs(reason.points) if reason.points else "="


def _to_do(one: Ranked, case: Case, ticks: Sequence[Tick], sources: Sources) -> Iterator[str]:
    for number, (remedy, amount) in enumerate(remedies(one, case, ticks), 1):
        yield f"{number}. {remedy.do} {sources.mark(remedy.source)}"
        if amount:
            yield f"   {amount}"


def _expect(one: Ranked, case: Case, sources: Sources) -> Iterator[str]:
    expect, days = one.cause.expect, due_days(one.cause, case)
    look = day(case.now + timedelta(days=days), case.now)
    yield f"What to expect: {expect.words} {sources.mark(expect.source)}"
    yield f"Look again {look} ({count(days, 'day')}): {one.cause.look}."
    yield f"When to worry: {one.cause.worry} {sources.mark(OURS)}"


def summary(one: Ranked, case: Case, ticks: Sequence[Tick]) -> list[str]:
    """The gist of one cause: what speaks most for it and against it, and what to do first."""
    heads = ((Says.FOR, "For"), (Says.AGAINST, "Against"))
    lines = [f"{head}: {reason.words}" for says, head in heads for reason in one.of(says)[:1]]
    remedy, amount = remedies(one, case, ticks)[0]
    look = day(case.now + timedelta(days=due_days(one.cause, case)), case.now)
    return [*lines, f"First: {remedy.do} {amount}".rstrip(), f"Look again {look}: {one.cause.look}."]


def headline(one: Ranked) -> str:
    """`most likely: Too wet`."""
    return f"{one.rank}: {one.cause.title}"
