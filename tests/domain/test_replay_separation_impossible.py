"""Separations that cannot have happened are findings with the entry named, and change nothing."""

from __future__ import annotations

from typing import Any

import pytest

from tests.builders import codes, fed, order, started, turned
from tests.domain.separating import at, begun, running, say, separating
from trayturn.domain.entries import ENTRY_TYPES, Entry


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        ("step_started", {"step": "rest"}),
        ("step_ended", {"step": "rest"}),
        ("deadline_moved", {"ends_at": at(9)}),
        ("pass_done", {"pass_number": 1, "worms_seen": "few"}),
        ("settled", {"castings_kg": 4}),
        ("separation_ended", {}),
    ],
)
def test_no_separation_under_way(kind: str, fields: dict[str, Any]) -> None:
    stack = separating(say(kind, 1, **fields))
    assert codes(stack) == ["no-separation"]
    where = f"entry 10 ({ENTRY_TYPES[kind].title} A, 2026-05-05 10:01)"
    assert (
        str(stack.findings[0]) == f"{where}: No separation of tray A is under way. Correct the tray or date."
    )
    assert (order(stack), stack.harvests) == ("CAB", ())


@pytest.mark.parametrize("tray", ["D", "Z"])
def test_a_tray_that_is_not_on_the_stack(tray: str) -> None:
    stack = separating(say("separation_begun", 0, tray))
    assert codes(stack)[-1] == "separated-off-stack"
    assert f"Tray {tray} is not on the stack." in str(stack.findings[-1])
    assert stack.separations == ()


def finding(*entries: Entry) -> tuple[str, str]:
    """The code and words of the one finding that the entries make after a separation of A began."""
    (found,) = separating(*begun(), *entries).findings
    return found.code, found.what


def test_begun_twice() -> None:
    assert finding(say("separation_begun", 5)) == ("separation-twice", "Tray A is being separated already.")


def test_a_step_ended_that_was_not_under_way() -> None:
    code, what = finding(say("step_ended", 5, step="rest"))
    assert (code, what) == ("step-not-open", "The step rest of tray A was not under way.")
    twice = (say("step_ended", 5, step="get_ready"), say("step_ended", 6, step="get_ready"))
    assert finding(*twice)[0] == "step-not-open"


def test_a_deadline_without_a_timed_step() -> None:
    code, what = finding(say("deadline_moved", 5, ends_at=at(9)))
    assert (code, what) == ("no-deadline", "Tray A has no timed step under way.")


def test_a_step_that_ends_before_it_begins() -> None:
    code, what = finding(say("step_started", 5, step="rest", ends_at=at(4)))
    assert (code, what) == ("ends-before-start", "The step rest ends before it begins.")


def test_one_pass_told_twice_counts_once() -> None:
    told = say("pass_done", 28, pass_number=1, worms_seen="few", skimmed_kg=2)
    stack = separating(*begun(), told, told)
    assert (codes(stack), running(stack).skimmed_kg) == (["pass-twice"], 2)


def test_settled_twice_is_one_harvest() -> None:
    stack = separating(*begun(), say("settled", 30, castings_kg=4), say("settled", 31, castings_kg=4))
    assert (codes(stack), len(stack.harvests)) == (["settled-twice"], 1)


def test_fed_while_it_is_being_separated() -> None:
    code, what = finding(fed("A", at(5)))
    assert (code, what) == ("fed-late", "Tray A was fed while separating.")


def test_started_while_it_is_being_separated() -> None:
    assert finding(started("A", at(5)))[0] == "started-twice"


def test_a_stage_for_the_tray_being_separated() -> None:
    code, what = finding(turned("CBA", at(5), A="finishing"))
    assert (code, what) == ("stage-off-stack", "Tray A is given a stage and is being separated.")
