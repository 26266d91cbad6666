"""What is worked out once for a stack: the same answer for the same one, another for another."""

from __future__ import annotations

from tests.builders import a_usual_bin, stack_of
from trayturn.advice.due import due_list
from trayturn.advice.once import LATEST, once
from trayturn.domain.stack import Stack


def stacks(number: int) -> list[Stack]:
    return [stack_of(*a_usual_bin(), as_of=10 + day) for day in range(number)]


def test_each_stack_is_asked_about_once_until_many_others_were() -> None:
    asked: list[Stack] = []

    @once
    def days(stack: Stack) -> list[object]:
        asked.append(stack)
        return [stack.as_of]

    all_of_them = stacks(LATEST + 1)
    for stack in (*all_of_them[:-1], *all_of_them[:-1]):
        assert days(stack) == [stack.as_of]
    assert len(asked) == LATEST
    days(all_of_them[-1])
    assert days(all_of_them[0]) == [all_of_them[0].as_of]
    assert len(asked) == LATEST + 2


def test_what_one_does_to_its_list_no_other_sees() -> None:
    (stack,) = stacks(1)
    due_list(stack).clear()
    assert due_list(stack)
