"""The order of lifts from one stack to another: never more hands or places than there are."""

from collections import deque
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trayturn.science.errors import OutOfRange
from trayturn.science.restacking import ELSEWHERE, STACK, Lift, NoRoom, restack

Bin = tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]


def carry_out(now: str, lifts: tuple[Lift, ...], places: int, high: int) -> Bin:
    """The stack and the piles after the lifts; fails for a lift that no keeper could make."""
    stack, piles = list(now), [list[str]() for _ in range(places)]
    for lift in lifts:
        source = (
            stack
            if lift.source == STACK
            else piles[int(lift.source) - 1]
            if lift.source != ELSEWHERE
            else None
        )
        if source is not None:
            assert source.pop() == lift.tray
        if lift.target == STACK:
            stack.append(lift.tray)
        elif lift.target != ELSEWHERE:
            piles[int(lift.target) - 1].append(lift.tray)
            assert len(piles[int(lift.target) - 1]) <= high
    return tuple(stack), tuple(map(tuple, piles))


def fewest(now: str, then: str, aside: str, places: int, high: int) -> int | None:
    """The fewest lifts by trying everything, breadth first: another program than the one that is tested."""
    start: Bin = (tuple(now), ((),) * places)
    seen, queue = {start}, deque([(start, 0)])
    while queue:
        (stack, piles), steps = queue.popleft()
        if stack == tuple(then) and {tray for pile in piles for tray in pile} == set(aside):
            return steps
        spots = [stack, *piles]
        for source, held in enumerate(spots):
            for target in range(len(spots)):
                if not held or target == source or (target and len(spots[target]) >= high):
                    continue
                after = list(spots)
                after[source], after[target] = held[:-1], (*spots[target], held[-1])
                state: Bin = (after[0], tuple(after[1:]))
                if state not in seen:
                    seen.add(state)
                    queue.append((state, steps + 1))
    return None


def test_a_turn_of_four_trays_with_two_places() -> None:
    lifts = restack("ABCD", "EABC", aside="D", incoming="E", places=2, high=2)
    stack, piles = carry_out("ABCD", lifts, 2, 2)
    assert stack == tuple("EABC")
    assert {tray for pile in piles for tray in pile} == {"D"}
    assert len(lifts) == 8  # A, B and C off and on, D off, E on: no plan has fewer


def test_what_stands_right_is_left_alone() -> None:
    assert restack("ABC", "ABC") == ()
    assert restack("ABC", "AB", aside="C") == (Lift("C", STACK, 1),)
    assert restack("ABC", "AB") == (Lift("C", STACK, ELSEWHERE),)
    assert restack("AB", "ABC", incoming="C") == (Lift("C", ELSEWHERE, STACK),)


@pytest.mark.parametrize("places", [1, 2, 3])
@pytest.mark.parametrize("high", [1, 2, 3])
def test_every_order_of_three_trays_has_the_fewest_lifts(places: int, high: int) -> None:
    for then in permutations("ABC"):
        for number in range(4):
            stays, aside = "".join(then[:number]), "".join(then[number:])
            best = fewest("ABC", stays, aside, places, high)
            if best is None:
                with pytest.raises(NoRoom):
                    restack("ABC", stays, aside, places=places, high=high)
            else:
                assert len(restack("ABC", stays, aside, places=places, high=high)) == best


@settings(max_examples=40, deadline=None)
@given(st.permutations("ABCD"), st.integers(0, 1), st.integers(1, 3), st.integers(1, 3))
def test_four_trays_have_the_fewest_lifts_too(order: list[str], out: int, places: int, high: int) -> None:
    then, aside = "".join(order[: 4 - out]), "".join(order[4 - out :])
    best = fewest("ABCD", then, aside, places, high)
    try:
        lifts = restack("ABCD", then, aside, places=places, high=high)
    except NoRoom:
        assert best is None
    else:
        assert len(lifts) == best
        assert carry_out("ABCD", lifts, places, high)[0] == tuple(then)


@settings(max_examples=30, deadline=None)
@given(st.integers(1, 6), st.data())
def test_with_a_place_for_each_two_lifts_a_tray_do(size: int, data: st.DataObject) -> None:
    now = "ABCDEF"[:size]
    then = "".join(data.draw(st.permutations(now)))
    same = next((n for n in range(size) if now[n] != then[n]), size)
    assert len(restack(now, then, places=max(1, size), high=1)) == 2 * (size - same)


def test_too_few_places_says_how_many_would_do() -> None:
    with pytest.raises(NoRoom) as short:
        restack("ABCD", "DCBA", places=1, high=1)
    assert short.value.needed == 4
    assert len(restack("ABCD", "DCBA", places=4, high=1)) == 8


def test_of_plans_with_as_few_lifts_the_lighter_one_is_taken() -> None:
    for heavy in "BCD":
        kg = {tray: 9.0 if tray == heavy else 1.0 for tray in "ABCD"}
        lifts = restack("ABCD", "ADCB", kg=kg)
        assert len(lifts) == len(restack("ABCD", "ADCB")) == 7
        # One tray has to be lifted three times, the two others off and on: it is not the heavy one.
        assert sum(lift.tray == heavy for lift in lifts) == 2


def test_a_high_stack_is_still_planned() -> None:
    now, then = "ABCDEFGHIJ", "KABCDEFGHI"
    lifts = restack(now, then, aside="J", incoming="K", places=3, high=5)
    assert carry_out(now, lifts, 3, 5)[0] == tuple(then)
    with pytest.raises(NoRoom) as short:
        restack(now, now[::-1], places=2, high=2)
    assert short.value.needed == 10
    lifts = restack(now, now[::-1], places=10, high=1)
    assert (len(lifts), carry_out(now, lifts, 10, 1)[0]) == (20, tuple(now[::-1]))


@pytest.mark.parametrize(
    ("now", "then", "aside", "incoming"),
    [
        ("AA", "A", "", ""),
        ("A", "AB", "", ""),
        ("A", "A", "A", ""),
        ("AB", "AB", "", "B"),
        ("A", "A", "", "C"),
    ],
)
def test_impossible_orders_are_refused(now: str, then: str, aside: str, incoming: str) -> None:
    with pytest.raises(OutOfRange):
        restack(now, then, aside, incoming)
