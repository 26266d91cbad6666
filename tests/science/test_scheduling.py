"""One pair of hands and several trays, against trying every order there is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trayturn.science.errors import OutOfRange
from trayturn.science.scheduling import Chain, Task, schedule

LOOSEN, SKIM, SETTLE = Task("loosen", 3.5, 15), Task("skim", 4), Task("settle", 6)


def separation(name: str, passes: int, ready: float = 0.0) -> Chain:
    """The hands of one separation, by common practice: 3 to 4 minutes of loosening, 15 of rest."""
    return Chain(name, (*((LOOSEN, SKIM) * passes), SETTLE), ready)


def every_order(lengths: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Every way to interleave chains of these lengths."""
    if not any(lengths):
        yield ()
    for n, length in enumerate(lengths):
        if length:
            fewer = [*lengths[:n], length - 1, *lengths[n + 1 :]]
            for rest in every_order(fewer):
                yield (n, *rest)


def soonest(chains: Sequence[Chain], free: float = 0.0) -> float:
    """The end of the best plan, by trying all of them."""
    return min(ends(chains, order, free) for order in every_order([len(c.tasks) for c in chains]))


def ends(chains: Sequence[Chain], order: Sequence[int], free: float) -> float:
    ready, places = [chain.ready for chain in chains], [0] * len(chains)
    for n in order:
        task = chains[n].tasks[places[n]]
        free = max(free, ready[n]) + task.hands
        ready[n] = free + task.rest
        places[n] += 1
    return max([free, *ready])


def test_one_tray_takes_its_own_time() -> None:
    plan = schedule([separation("A", 3)])
    assert plan.done == pytest.approx(3 * (3.5 + 15 + 4) + 6)
    assert plan.proved
    assert [slot.task.name for slot in plan.slots] == ["loosen", "skim"] * 3 + ["settle"]


def test_a_second_tray_fits_into_the_rests_of_the_first() -> None:
    one, two = schedule([separation("A", 2)]), schedule([separation("A", 2), separation("B", 2)])
    assert two.proved
    assert two.done < 1.4 * one.done


def test_work_that_fills_all_rests_ends_when_the_hands_do() -> None:
    plan = schedule([separation(name, 2) for name in "ABCDEF"])
    assert plan.done <= plan.hands + 15 + 1e-9
    assert plan.done >= plan.bound - 1e-9


tasks = st.lists(
    st.builds(Task, st.just("task"), st.integers(0, 9).map(float), st.integers(0, 20).map(float)),
    min_size=1,
    max_size=3,
)
some_chains = st.lists(st.tuples(tasks, st.integers(0, 12)), min_size=1, max_size=3).map(
    lambda rows: [Chain(f"T{n}", tuple(row), float(ready)) for n, (row, ready) in enumerate(rows)]
)


@settings(max_examples=150)
@given(some_chains, st.integers(0, 10))
def test_it_is_as_soon_as_the_best_of_all_orders(chains: list[Chain], free: int) -> None:
    plan = schedule(chains, float(free))
    assert plan.proved
    assert plan.done == pytest.approx(soonest(chains, float(free)))
    assert plan.bound <= plan.done + 1e-9


@pytest.mark.parametrize("passes", [(1,), (2, 1), (1, 1, 1), (2, 2), (2, 1, 1)])
def test_separations_are_as_soon_as_the_best_of_all_orders(passes: tuple[int, ...]) -> None:
    chains = [separation(f"T{n}", count, 2.0 * n) for n, count in enumerate(passes)]
    assert schedule(chains).done == pytest.approx(soonest(chains))


@given(some_chains)
def test_hands_are_never_in_two_places_and_no_rest_is_cut_short(chains: list[Chain]) -> None:
    plan = schedule(chains)
    assert [(slot.chain, slot.place) for slot in sorted(plan.slots, key=lambda s: (s.chain, s.place))] == [
        (chain.name, place) for chain in chains for place in range(len(chain.tasks))
    ]
    for before, after in pairwise(plan.slots):
        assert after.start >= before.end - 1e-9
    for chain in chains:
        mine = [slot for slot in plan.slots if slot.chain == chain.name]
        assert mine[0].start >= chain.ready
        for before, after in pairwise(mine):
            assert after.place == before.place + 1
            assert after.start >= before.rest_until - 1e-9


@pytest.mark.parametrize("trays", range(1, 7))
def test_up_to_six_trays_have_a_plan_that_is_proved_best(trays: int) -> None:
    plan = schedule([separation(f"T{n}", 4) for n in range(trays)])
    assert plan.proved
    assert plan.bound <= plan.done <= schedule([separation("T0", 4)]).done * trays


def test_a_plan_made_anew_midway_keeps_what_has_begun() -> None:
    resting = Chain("A", (SKIM, SETTLE), ready=12.0)
    plan = schedule([resting, separation("B", 1)], free=3.0)
    assert plan.slots[0].chain == "B"
    assert plan.slots[0].start == 3.0
    assert next(slot for slot in plan.slots if slot.chain == "A").start >= 12.0


def test_nothing_to_do_is_done_at_once_and_twins_are_refused() -> None:
    assert schedule([], free=2.0).done == 2.0
    with pytest.raises(OutOfRange, match="one name"):
        schedule([separation("A", 1), separation("A", 1)])
