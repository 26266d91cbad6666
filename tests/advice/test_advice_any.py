"""Any journal at all: the advice answers, with whatever the keeper wrote, and never raises."""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import HealthCheck, given, settings

from tests.builders import ZONE, a_profile
from tests.strategies import journals
from trayturn.advice.due import due_list
from trayturn.advice.feeding import feed_next
from trayturn.advice.reading import fill, texture
from trayturn.advice.story import move_line, stack_sentence, tray_story
from trayturn.advice.turning import next_turn, turn_entries
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay

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
