"""What was to be looked at again is due from its day on, with what had been seen."""

from __future__ import annotations

from typing import Any

import pytest

from tests.builders import a_usual_bin, entry, moment, stack_of
from trayturn.advice.due import Due, due_list
from trayturn.advice.pages import Page


def set_out(**fields: Any) -> Any:
    given = {"code": "too-wet", "what": "See whether it has dried", "due": moment(80, 18), **fields}
    return entry("follow_up_set", 73, **given)


def due(*entries: Any, as_of: Any = 81) -> Due:
    stack = stack_of(*a_usual_bin(), *entries, as_of=as_of)
    (one,) = [one for one in due_list(stack) if one.kind == "follow_up"]
    return one


def test_it_presses_from_its_day_on() -> None:
    day_before, early, late = moment(79, 23), moment(80, 0, 1), moment(80, 20)
    assert [due(set_out(), as_of=when).pressing for when in (day_before, early, late)] == [False, True, True]


def test_it_tells_what_was_seen_and_which_entry_set_it() -> None:
    one = due(set_out(tray="B", signs=("runs-when-squeezed", "smells_sour"), why="Five melons.", note="Hm"))
    assert (one.what, one.tray, one.item) == (
        "Tray B: See whether it has dried.",
        "B",
        "follow_up:too-wet:B",
    )
    assert one.why == (
        "Seen: runs when squeezed and smells sour.",
        "Set on Wed 13 May, 8 days ago, by the entry follow-up set B, 2026-05-13 10:00.",
        "Five melons.",
        "Hm",
    )
    assert (one.code, one.page, one.due) == ("too-wet", Page.TROUBLES, moment(80, 18))


@pytest.mark.parametrize(
    ("what", "told"),
    [
        ("Look at tray B again.", "Look at tray B again."),
        ("Flies gone", "Tray B: Flies gone."),
        ("  ", "Tray B: Look again."),
        ("two\nlines\x1b[31m", "Tray B: two lines[31m."),
    ],
)
def test_it_is_a_sentence_with_its_tray(what: str, told: str) -> None:
    assert due(set_out(what=what, tray="B")).what == told


def test_it_stands_before_the_check_and_after_the_feeding() -> None:
    stack = stack_of(*a_usual_bin(), set_out(code="flies"), as_of=130)
    assert [one.kind for one in due_list(stack)][:4] == ["turn", "feed", "follow_up", "check"]


def test_done_closes_it() -> None:
    done = entry("done", 80, item="follow_up:too-wet")
    stack = stack_of(*a_usual_bin(), set_out(), done, as_of=85)
    assert "follow_up" not in [one.kind for one in due_list(stack)]
    assert due(set_out(), done, set_out(due=moment(90)).model_copy(update={"at": moment(81)}), as_of=85)
