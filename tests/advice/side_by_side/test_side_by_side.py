"""The order of work made from real journals: hands never in two places, rests kept, none sooner."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.builders import a_profile, entry, moment, started
from trayturn.advice.passes import ahead
from trayturn.advice.side_by_side import SideBySide, side_by_side
from trayturn.advice.side_by_side.chains import chains_of
from trayturn.advice.side_by_side.words import lines
from trayturn.domain.entries import Entry, Step
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.stack import Separation, Stack
from trayturn.procedure import separation as moves
from trayturn.science.scheduling import Chain

NOW = moment(100)
MINUTE = timedelta(minutes=1)
STAGES = ("ready", "loosen", "rest", "skim", "decide", "settle", "clean up")


def at_stage(stage: str, minutes: float, key: str = "pantry", tray: str = "A") -> Stack:
    """A bin whose separation came to that step so many minutes ago."""
    profile = a_profile(started(tray, 0, stage="feeding"), trays=tray, key=key, name=key.title())
    at = NOW - minutes * MINUTE

    def stack(moment: datetime) -> Stack:
        return replay(profile, moment)

    profile = profile.with_entries(moves.begin(tray, at))
    for step in STAGES[1 : STAGES.index(stage) + 1]:
        sep = stack(at).separations[0]
        profile = profile.with_entries(_move(step, sep, stack(at), at))
    return stack(NOW)


def _move(step: str, sep: object, stack: Stack, at: datetime) -> list[Entry]:
    from trayturn.domain.entries import Amount
    from trayturn.domain.stack import Separation

    assert isinstance(sep, Separation)
    return {
        "loosen": lambda: moves.ready(sep, stack.setup, at, None, ()),
        "rest": lambda: moves.loosened(sep, stack.setup, at),
        "skim": lambda: moves.rested(sep, at),
        "decide": lambda: moves.skimmed(sep, moves.Skim(Amount.FEW), at),
        "settle": lambda: moves.stop(sep, at),
        "clean up": lambda: moves.settle(sep, moves.Settling(), at),
    }[step]()


def soonest(chains: list[Chain]) -> float:
    """When all can be done at the earliest, by every order there is: another program than the one tested."""
    names = [n for n, chain in enumerate(chains) for _ in chain.tasks]
    best = float("inf")
    for order in set(permutations(names)):
        free, places, ready = 0.0, [0] * len(chains), [chain.ready for chain in chains]
        for n in order:
            task = chains[n].tasks[places[n]]
            free = max(free, ready[n]) + task.hands
            ready[n] = free + task.rest
            places[n] += 1
        best = min(best, max(ready))
    return best


def check(plan: SideBySide) -> None:
    """Hands in one place at a time; a tray rests between its tasks, which keep their order."""
    ends = plan.now
    for slot in plan.slots:
        assert slot.start >= ends - timedelta(seconds=1e-3)
        ends = slot.end
    for key, _, tray in plan.trays:
        own = plan.of(key, tray)
        for before, after in pairwise(own):
            assert after.start >= before.rest_until - timedelta(seconds=1e-3)
        assert own[-1].what in ("settle", "clean up")


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(STAGES), st.floats(0, 30)), min_size=1, max_size=6))
def test_hands_are_never_in_two_places(given_stages: list[tuple[str, float]]) -> None:
    stacks = [at_stage(stage, ago, f"bin{n}") for n, (stage, ago) in enumerate(given_stages)]
    plan = side_by_side(stacks, NOW)
    assert plan is not None
    check(plan)
    assert len(plan.trays) == len(stacks)
    assert plan.done[0] <= plan.done[1] <= plan.done[2]


@pytest.mark.parametrize(
    "stages",
    [
        (("settle", 2.0), ("rest", 14.0)),
        (("decide", 0.0), ("settle", 1.0), ("clean up", 3.0)),
        (("skim", 3.0), ("clean up", 0.0)),
    ],
)
def test_no_order_ends_sooner(stages: tuple[tuple[str, float], ...]) -> None:
    stacks = [at_stage(stage, ago, f"bin{n}") for n, (stage, ago) in enumerate(stages)]
    ahead = chains_of(stacks, NOW)
    # Every order is tried, so the tail of long chains is left off.
    chains = [Chain(one.chains[1].name, one.chains[1].tasks[:3], one.chains[1].ready) for one in ahead]
    from trayturn.science.scheduling import schedule

    assert schedule(chains).done == pytest.approx(soonest(chains))


def test_what_comes_first_is_said_and_who_waits() -> None:
    stacks = [at_stage("skim", 0, "attic"), at_stage("rest", 20, "cellar")]
    plan = side_by_side(stacks, NOW)
    assert plan is not None
    told = lines(plan)
    assert told[0].startswith("Now skim tray A in ")
    assert any(line.startswith("The rest of tray A lasts ") and "hands are not free" in line for line in told)
    assert told[-1].startswith("All done between ")


def test_hands_are_free_while_all_rest() -> None:
    plan = side_by_side([at_stage("rest", 5, "attic"), at_stage("rest", 2, "cellar")], NOW)
    assert plan is not None
    assert plan.free_min == pytest.approx(10)
    assert lines(plan)[0] == "Hands are free until 10:10: then skim tray A in Attic."


def test_a_step_that_runs_long_shifts_what_comes_after() -> None:
    """Five minutes more at one tray: everything is reckoned from the journal as it stands."""
    in_time = side_by_side([at_stage("skim", 1, "attic"), at_stage("rest", 14, "cellar")], NOW)
    late = side_by_side([at_stage("skim", 6, "attic"), at_stage("rest", 19, "cellar")], NOW)
    assert in_time is not None
    assert late is not None
    check(late)
    assert late.done[1] - late.now < in_time.done[1] - in_time.now
    assert late.waits == () or late.waits[0].minutes < 6


def test_trays_that_are_to_be_set_on_top_are_reckoned_too() -> None:
    stack = at_stage("rest", 0)
    alone = side_by_side([stack], NOW)
    both = side_by_side([stack], NOW, [("pantry", "B")])
    assert alone is not None
    assert both is not None
    assert [tray for _, _, tray in both.trays] == ["B", "A"]
    assert both.of("pantry", "B")[0].what == "get ready"
    assert both.done[1] > alone.done[1]


def test_nothing_is_said_where_nothing_is_separated() -> None:
    assert side_by_side([replay(a_profile(started("A", 0)), NOW)], NOW) is None


def test_a_keepers_own_times_count() -> None:
    slow = entry("separation_begun", 50, tray="A")
    steps: list[Entry] = [started("A", 0, stage="feeding"), slow]
    for n, (step, minutes) in enumerate([(Step.SKIM, 20), (Step.SKIM, 22), (Step.SKIM, 21)]):
        begin = moment(50, 11 + n)
        steps.append(entry("step_started", begin, tray="A", step=step, pass_number=n + 1))
        steps.append(entry("step_ended", begin + minutes * MINUTE, tray="A", step=step, pass_number=n + 1))
    steps.append(entry("separation_ended", moment(50, 15), tray="A", outcome="put_back"))
    past = replay(a_profile(*steps, key="attic"), NOW)
    quick, own = chains_of([at_stage("rest", 0)], NOW), chains_of([at_stage("rest", 0), past], NOW)
    assert own[0].chains[1].tasks[0].hands > 2 * quick[0].chains[1].tasks[0].hands


@pytest.mark.parametrize("stage", STAGES[2:])
@pytest.mark.parametrize("minutes", [0, 3])
def test_one_tray_ends_when_its_own_screen_says_so(stage: str, minutes: int) -> None:
    """The order of work and the estimate of the one separation are two ways to reckon the same minutes."""
    stack = at_stage(stage, minutes)
    plan = side_by_side([stack], NOW)
    assert plan is not None
    left = ahead(stack, stack.separations[0])
    assert (plan.done[1] - NOW) / MINUTE == pytest.approx(left.minutes.mid, abs=0.2)


def test_cleaning_up_is_all_that_is_left_of_it() -> None:
    plan = side_by_side([at_stage("clean up", 0)], NOW)
    assert plan is not None
    assert [(slot.what, (slot.end - slot.start) / MINUTE) for slot in plan.slots] == [("clean up", 5)]


def test_the_rest_that_was_chosen_for_this_pass_is_reckoned_with() -> None:
    stack = at_stage("decide", 1)
    sep = stack.separations[0]
    profile = a_profile(started("A", 0, stage="feeding"), trays="A")
    usual, longer = (side_by_side([_gone_on(profile, sep, stack, minutes)], NOW) for minutes in (None, 45.0))
    assert usual is not None
    assert longer is not None
    assert (longer.slots[0].rest_until - longer.slots[0].end) / MINUTE == pytest.approx(45)
    assert (longer.done[1] - usual.done[1]) / MINUTE == pytest.approx(30)


def _gone_on(profile: Profile, sep: Separation, stack: Stack, minutes: float | None) -> Stack:
    """The same bin with one more pass begun, and that rest chosen for it."""
    at = NOW - MINUTE
    known = profile.with_entries(moves.begin("A", at))
    for step in STAGES[1 : STAGES.index("decide") + 1]:
        known = known.with_entries(_move(step, replay(known, at).separations[0], stack, at))
    return replay(known.with_entries(moves.again(sep, stack.setup, NOW, minutes)), NOW)


def test_a_tray_that_is_only_to_be_made_ready_waits_for_nothing() -> None:
    plan = side_by_side([at_stage("ready", 0, "attic"), at_stage("ready", 0, "cellar")], NOW)
    assert plan is not None
    assert plan.waits == ()


@pytest.mark.parametrize(("minutes", "bare"), [(20, False), (70, True)])
def test_a_rest_of_more_than_an_hour_is_to_be_covered(minutes: int, bare: bool) -> None:
    plan = side_by_side([at_stage("skim", 0, "attic"), at_stage("rest", minutes, "cellar")], NOW)
    assert plan is not None
    assert any("more than an hour of light" in line for line in lines(plan)) is bare
