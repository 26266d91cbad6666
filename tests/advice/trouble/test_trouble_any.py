"""Any journal and any signs: the finder answers, never raises, and more evidence never speaks against it."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.builders import ZONE, a_profile
from tests.strategies import journals
from trayturn.advice.feeding import feed_next
from trayturn.advice.pantry import pantry_of
from trayturn.advice.resting import rests_until
from trayturn.advice.trouble.case import Case, case_of, record_of
from trayturn.advice.trouble.causes import CAUSES, EVIDENCE
from trayturn.advice.trouble.follow_up import follow_up
from trayturn.advice.trouble.parts import Cause, Found, Says
from trayturn.advice.trouble.ranking import Rank, answers, rank, tells_most
from trayturn.advice.trouble.seen import Tick, seen_already
from trayturn.advice.trouble.signs import SIGN, SIGNS
from trayturn.advice.trouble.telling import answer, story
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay

AFTER = datetime(2090, 2, 1, tzinfo=ZONE)
CONTROL = {chr(code) for code in [*range(32), 127]}
signs = st.lists(st.sampled_from(sorted(SIGN)), unique=True, max_size=6)
says = st.fixed_dictionaries({code: st.sampled_from(Says) for code in EVIDENCE})


def _found(said: dict[str, Says]) -> dict[str, Found]:
    return {code: Found(one, "It says so.") for code, one in said.items()}


def _cases(journal: list[Entry]) -> list[Case]:
    """The bin at the end of its journal, so that something of it is recent; and each of its trays."""
    as_of = min(AFTER, max((one.at for one in journal), default=AFTER) + timedelta(days=1))
    profile = a_profile(*journal, trays="")
    stack, pantry = replay(profile, as_of), pantry_of(profile)
    record = record_of(profile)
    return [case_of(record, stack, pantry, tray) for tray in (None, *(one.id for one in stack.trays), "Z")]


@given(journals(), signs)
@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_any_journal_gets_its_answer(journal: list[Entry], codes: list[str]) -> None:
    for case in _cases(journal):
        found = answers(case)
        ticks = [*seen_already(case).values(), *(Tick(code) for code in codes)]
        told = answer(case, ticks, found)
        assert bool(told.ranked) == bool(ticks)
        for one in told.ranked:
            said = story(one, case, ticks)
            assert not any(set(line) & CONTROL for line in said)
            taken = follow_up(one, case, ticks, AFTER)
            assert taken.due > AFTER
            held = rests_until(replace(case.stack, as_of=AFTER, follow_ups={"x": taken}), case.tray)
            assert (held is not None) == one.cause.stops_feeding
        assert feed_next(case.stack).what


@given(journals(6))
@settings(max_examples=30, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_every_cause_of_any_journal_can_be_told_with_its_amounts(journal: list[Entry]) -> None:
    case = _cases(journal)[0]
    ticks = [Tick(code) for code in SIGN]
    ranked = rank(ticks, answers(case))
    assert {one.cause.code for one in ranked} == {cause.code for cause in CAUSES}
    assert all(story(one, case, ticks) for one in ranked)


@given(signs, says, st.sampled_from(CAUSES), st.data())
def test_more_that_speaks_for_a_cause_never_lowers_it(
    codes: list[str], said: dict[str, Says], cause: Cause, data: st.DataObject
) -> None:
    sign = data.draw(st.sampled_from([s.sign for s in cause.speaks if not s.against]))
    now = _points([*codes, sign], said, cause)
    if any(s.sign in codes and not s.against for s in cause.speaks):
        assert now >= _points(codes, said, cause)
    if cause.asks:
        code = data.draw(st.sampled_from([ask.evidence.code for ask in cause.asks]))
        assert _points([*codes, sign], {**said, code: Says.FOR}, cause) >= now
        assert _points([*codes, sign], {**said, code: Says.AGAINST}, cause) <= now


@given(signs, says, st.data())
def test_a_reading_that_is_a_sign_too_counts_once_and_never_less(
    codes: list[str], said: dict[str, Says], data: st.DataObject
) -> None:
    sign = data.draw(st.sampled_from([sign.code for sign in SIGNS if sign.reading]))
    code = SIGN[sign].reading
    others = [Tick(other) for other in codes if other != sign]
    found = _found({**said, code: Says.FOR})
    read = {one.cause.code: one for one in rank([*others, Tick(sign, "from the check")], found)}
    for one in rank([*others, Tick(sign)], found):
        asked = {ask.evidence.code: int(ask.if_for) for ask in one.cause.asks}
        own = sum(s.points for s in one.cause.speaks if s.sign == sign)
        assert read[one.cause.code].points == one.points - (own if code in asked else 0)
        assert asked.get(code, own) >= own, "the reading is worth less than the sign it stands for"


@given(says)
def test_without_signs_no_cause_is_claimed_whatever_the_journal_says(said: dict[str, Says]) -> None:
    assert rank([], _found(said)) == []
    assert tells_most([], _found(said)) is None


@given(signs, says)
def test_the_likeliest_come_first_and_the_first_is_never_below_another(
    codes: list[str], said: dict[str, Says]
) -> None:
    ranked = rank([Tick(code) for code in codes], _found(said))
    order = list(Rank)
    ranks = [order.index(one.rank) for one in ranked]
    assert ranks == sorted(ranks)
    assert [one.points for one in ranked] == sorted((one.points for one in ranked), reverse=True)


def _points(codes: list[str], said: dict[str, Says], cause: Cause) -> int:
    ranked = rank([Tick(one) for one in dict.fromkeys(codes)], _found(said))
    return next(one.points for one in ranked if one.cause is cause)
