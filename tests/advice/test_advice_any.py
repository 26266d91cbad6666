"""Any journal at all: the advice answers, with whatever the keeper wrote, and never raises."""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import HealthCheck, given, settings

from tests.builders import ZONE, a_profile
from tests.strategies import journals
from trayturn.advice.castings.stages import nexts
from trayturn.advice.castings.words import lot_story, reason
from trayturn.advice.due import due_list
from trayturn.advice.feeding import feed_next
from trayturn.advice.found.overs import going_round
from trayturn.advice.ledger.books import ledger_of
from trayturn.advice.ledger.words import story
from trayturn.advice.pantry import pantry_of
from trayturn.advice.passes import ahead, ahead_words
from trayturn.advice.reading import fill, texture
from trayturn.advice.side_by_side import side_by_side
from trayturn.advice.side_by_side.words import lines
from trayturn.advice.story import move_line, stack_sentence, tray_story
from trayturn.advice.turn_day.jobs import job_words, jobs
from trayturn.advice.turn_day.plan_words import full_lines
from trayturn.advice.turn_day.whole import whole_day
from trayturn.advice.turning import next_turn, turn_entries
from trayturn.domain.entries import Entry, Step
from trayturn.domain.replay import replay
from trayturn.domain.setup import Units

AFTER = datetime(2090, 2, 1, tzinfo=ZONE)
CONTROL = {chr(code) for code in [*range(32), 127]}


@given(journals())
@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_any_journal_gets_its_advice(journal: list[Entry]) -> None:
    for trays, pattern in (("", "bedding_below"), ("AB", "straight_up")):
        stack = replay(a_profile(*journal, trays=trays, pattern=pattern), AFTER)
        said = [stack_sentence(stack), feed_next(stack).what, *feed_next(stack).why]
        said += [text for due in due_list(stack) for text in (due.what, *due.why)]
        said += [text for tray in (*stack.trays, *stack.off_stack) for text in tray_story(tray, stack)]
        said += [move_line(move) for move in next_turn(stack).moves]
        assert all(text and not set(text) & CONTROL for text in said)
        assert all(0 <= fill(tray, stack.setup).fraction <= 1 for tray in stack.trays)
        assert all(texture(tray) for tray in stack.trays)
        entries = turn_entries(stack, AFTER + timedelta(days=1))
        assert bool(entries) is bool(
            [m for m in next_turn(stack).moves if m.to_level or not stack.separations]
        )


@given(journals())
@settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_what_comes_out_of_any_bin_is_told(journal: list[Entry]) -> None:
    """Lots, pieces, the ledger, the turn day and the order of work, whatever was written before."""
    for trays, pattern in (("", "bedding_below"), ("AB", "straight_up")):
        profile = a_profile(*journal, trays=trays, pattern=pattern)
        stack, pantry = replay(profile, AFTER), pantry_of(profile)
        said = [text for _, coming in nexts(stack) for text in (coming.what, *coming.why)]
        said += [text for lot in stack.lots for text in (*lot_story(lot, stack), *reason(lot, stack))]
        said += [going.do for going in going_round(stack, pantry)]
        said += [text for one in stack.separations for text in ahead_words(ahead(stack, one), Step.SKIM)]
        said += [job_words(job) for job in jobs(stack, timedelta(hours=1), AFTER)]
        said += full_lines(whole_day(stack, pantry), stack)
        said += [text for turn in ledger_of(stack, pantry).turns for text in story(turn, AFTER, Units.METRIC)]
        plan = side_by_side([stack], AFTER)
        said += lines(plan) if plan is not None else []
        assert not any(set(text) & CONTROL for text in said)
        assert all(lot.left_kg is None or lot.left_kg >= 0 for lot in stack.lots)
        assert all(over.count > 0 for over in (*stack.overs, *stack.overs_gone))
