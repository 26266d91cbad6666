"""`trouble`: from what is seen to its likely causes and what to do, the text twin of putting right."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterable, Iterator

from trayturn.advice.pantry import pantry_of
from trayturn.advice.trouble.case import Case, case_of, record_of
from trayturn.advice.trouble.causes import CAUSE
from trayturn.advice.trouble.follow_up import due_days, follow_up
from trayturn.advice.trouble.parts import Says
from trayturn.advice.trouble.ranking import Rank, Ranked, Reason, answers
from trayturn.advice.trouble.seen import Tick, seen_already
from trayturn.advice.trouble.signs import SIGN, SIGNS
from trayturn.advice.trouble.telling import (
    HOW,
    NO_JOURNAL,
    NO_SIGNS,
    Answer,
    answer,
    cautions,
    gist,
    headline,
    remedies,
    story,
)
from trayturn.cli import as_json
from trayturn.cli.layout import Page, column
from trayturn.cli.opening import open_bin, readable, stack_asked
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.profile import nearest
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, listed


def trouble(options: Namespace, clock: Clock) -> int:
    """Print the causes that the signs and the journal speak for, or the list of signs."""
    if options.signs:
        _print_signs(options)
        return 0
    if options.bin is None:
        raise Refused("Name the bin before the signs, such as: trayturn trouble pantry --sign smell-rotten")
    profile = readable(open_bin(options))
    stack = stack_asked(options, profile, clock())
    case = case_of(record_of(profile), stack, pantry_of(profile), _tray(options.tray, stack))
    ticks = _ticks(options, case)
    told = answer(case, ticks, answers(case))
    if options.json:
        as_json.print_json(_data(case, ticks, told))
    else:
        _print(case, ticks, told, _wanted(options.cause, told), Page(options.ascii))
    return 0


def _tray(typed: str | None, stack: Stack) -> str | None:
    """The tray as the bin writes it. Raises `Refused` for one that is not on the stack."""
    if typed is None:
        return None
    on_stack = [tray.id for tray in stack.trays]
    match = next((name for name in on_stack if name.casefold() == typed.casefold()), None)
    if match is None:
        there = f"Its trays are {listed(on_stack)}." if on_stack else "No tray is on it."
        name = clean(stack.setup.name, 60)
        raise Refused(f"Tray {clean(typed, 40)!r} is not on the stack of {name}. {there}")
    return match


def _ticks(options: Namespace, case: Case) -> list[Tick]:
    """The signs named, and those that the last checks saw. Raises `Refused` for one that is not known."""
    for code in options.sign:
        if code not in SIGN:
            hint = nearest(code, SIGN) or "; list them with: trayturn trouble --signs"
            raise Refused(f"{clean(code, 40)!r} is not a sign{hint}.")
    seen = {} if options.only else seen_already(case)
    return list({**seen, **{code: seen.get(code, Tick(code)) for code in options.sign}}.values())


def _wanted(code: str | None, told: Answer) -> tuple[Ranked, ...]:
    """The causes to tell in full: the one named, or the likeliest. Raises `Refused` for none such."""
    if code is None:
        likely = tuple(one for one in told.ranked if one.rank is Rank.LIKELY)
        return likely or told.ranked[:1]
    wanted = tuple(one for one in told.ranked if one.cause.code == code)
    if not wanted:
        what = "is spoken for by no sign" if code in CAUSE else f"is not a cause{nearest(code, CAUSE)}"
        raise Refused(f"{clean(code, 40)!r} {what}.")
    return wanted


def _print_signs(options: Namespace) -> None:
    if options.json:
        data = [{"code": s.code, "group": str(s.group), "words": s.sentence, "note": s.note} for s in SIGNS]
        as_json.print_json({"signs": data})
        return
    page, width = Page(options.ascii), column([sign.code for sign in SIGNS])
    group = ""
    for sign in SIGNS:
        if sign.group != group:
            group = sign.group
            page.line(group.capitalize())
        page.row(sign.code, sign.sentence, width)


def _print(case: Case, ticks: list[Tick], told: Answer, full: tuple[Ranked, ...], page: Page) -> None:
    name = clean(case.stack.setup.name, 60)
    page.line(f"{name}, {case.who}" if case.tray else name)
    page.lines(_seen(ticks), 2, 2)
    if not ticks:
        page.line(f"{NO_SIGNS} List the signs with: trayturn trouble --signs", 2, 2)
        return
    if told.rests_on_signs_alone:
        page.line(NO_JOURNAL, 2, 2)
    page.line()
    for one in told.ranked:
        page.line(f"{headline(one)} ({one.cause.code}; {gist(one)})", 2, 2)
    if told.tells_most:
        page.line(f"What would tell the most: {told.tells_most}.", 2, 2)
    for one in full:
        page.line()
        page.line(one.cause.title)
        page.lines(story(one, case, ticks), 2, 2)
    page.line()
    page.line(HOW)


def _seen(ticks: Iterable[Tick]) -> Iterator[str]:
    for tick in ticks:
        yield SIGN[tick.sign].sentence + (f" ({tick.said})" if tick.said else "")


def _data(case: Case, ticks: list[Tick], told: Answer) -> as_json.Data:
    return {
        "bin": case.stack.key,
        "name": case.stack.setup.name,
        "as_of": as_json.moment(case.now),
        "tray": case.tray,
        "signs": [_sign_data(tick) for tick in ticks],
        "causes": [_cause_data(one, case, ticks) for one in told.ranked],
        "tells_most": told.tells_most or None,
        "rests_on_signs_alone": told.rests_on_signs_alone,
        "how": HOW,
    }


def _sign_data(tick: Tick) -> as_json.Data:
    return {"code": tick.sign, "words": SIGN[tick.sign].sentence, "from": tick.said or None}


def _cause_data(one: Ranked, case: Case, ticks: list[Tick]) -> as_json.Data:
    cause = one.cause
    return {
        "code": cause.code,
        "title": cause.title,
        "rank": str(one.rank),
        "points": one.points,
        "why": cause.why,
        "page": str(cause.page),
        "for": [_reason_data(reason) for reason in one.of(Says.FOR)],
        "against": [_reason_data(reason) for reason in one.of(Says.AGAINST)],
        "neither": [_reason_data(reason) for reason in one.of(Says.NEITHER)],
        "unknown": [_reason_data(reason) for reason in one.of(Says.UNKNOWN)],
        "remedies": [
            {"do": r.do, "amount": amount or None, "source": r.source.text, "sure": str(r.source.sure)}
            for r, amount in remedies(one, case, ticks)
        ],
        "expect": cause.expect.words,
        "expect_source": cause.expect.source.text,
        "look_again_days": due_days(cause, case),
        "worry": cause.worry,
        "stops_feeding": cause.stops_feeding,
        "cautions": [caution.code for caution in cautions(one, ticks)],
        "follow_up": as_json.entry(follow_up(one, case, ticks, case.now)),
    }


def _reason_data(reason: Reason) -> as_json.Data:
    return {
        "words": reason.words,
        "points": reason.points,
        "rests_on": list(reason.rests_on),
        "source": reason.source.text,
        "sure": str(reason.source.sure),
        "check": str(reason.check) if reason.check else None,
    }
