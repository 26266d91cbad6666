"""What each move of a separation writes, and that the journal alone tells where it stands."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import a_profile, a_usual_bin, entry, moment
from trayturn.domain.entries import Amount, Entry, Outcome, Stage, Step, Undone
from trayturn.domain.profile import Profile
from trayturn.domain.replay import present, replay, standing
from trayturn.domain.stack import Separation, Stack
from trayturn.procedure import separation as moves
from trayturn.procedure.separation import Settling, Skim

DAY = 120


class Bench:
    """A bin at the bench: moves are made and written, and the stack is replayed from the journal alone."""

    def __init__(self) -> None:
        self.profile: Profile = a_profile(*a_usual_bin())
        self.now = moment(DAY)

    def write(self, entries: Sequence[Entry], minutes: float = 1) -> Stack:
        self.profile = self.profile.with_entries(entries)
        self.now += timedelta(minutes=minutes)
        return self.stack

    @property
    def stack(self) -> Stack:
        return replay(self.profile, self.now)

    @property
    def sep(self) -> Separation:
        running = self.stack.separation("A")
        assert running is not None
        return running

    def sep_now(self) -> Separation:
        """The separation as a window shows it when the clock reads earlier than the journal."""
        return replay(self.profile, present(self.profile, self.now)).separations[0]

    @property
    def step(self) -> Step | None:
        return self.sep.step.step if self.sep.step else None

    def one_pass(self, seen: Amount = Amount.FEW, kg: float | None = 1.0) -> None:
        self.write(moves.loosened(self.sep, self.profile.bin, self.now), 15)
        self.write(moves.rested(self.sep, self.now), 2)
        self.write(moves.skimmed(self.sep, Skim(seen, kg), self.now))

    def start(self, gross_kg: float | None = None) -> None:
        self.write(moves.begin("A", self.now))
        self.write(moves.ready(self.sep, self.profile.bin, self.now, gross_kg, ["gloves"]), 3.5)


@pytest.fixture
def bench() -> Bench:
    return Bench()


def test_a_whole_separation_walks_every_step(bench: Bench) -> None:
    setup, walked = bench.profile.bin, []

    def write(entries: Sequence[Entry]) -> None:
        bench.write(entries)
        running = bench.stack.separation("A")
        walked.append((str(bench.step), bench.sep.pass_number) if running else "done")

    write(moves.begin("A", bench.now))
    assert bench.stack.trays[-1].id == "A"
    write(moves.ready(bench.sep, setup, bench.now, 6.5, ["gloves", "hands"]))
    for seen in (Amount.FEW, Amount.MANY):
        write(moves.loosened(bench.sep, setup, bench.now))
        write(moves.rested(bench.sep, bench.now))
        write(moves.skimmed(bench.sep, Skim(seen, 1.0), bench.now))
        write(
            moves.stop(bench.sep, bench.now)
            if seen is Amount.MANY
            else moves.again(bench.sep, setup, bench.now)
        )
    write(moves.settle(bench.sep, Settling(4.4, "tray B", "tray B", "tray B"), bench.now))
    write(moves.finish(bench.sep, bench.now))
    assert walked == [
        ("get_ready", 1),
        ("loosen", 1),
        *(("rest", 1), ("skim", 1), ("decide", 1), ("loosen", 2)),
        *(("rest", 2), ("skim", 2), ("decide", 2), ("settle", 2)),
        ("clean_up", 2),
        "done",
    ]


def test_a_finished_separation_stands_in_the_record(bench: Bench) -> None:
    bench.start(6.5)
    bench.one_pass(Amount.MANY)
    bench.write(moves.stop(bench.sep, bench.now))
    bench.write(moves.settle(bench.sep, Settling(4.4, "tray B", "tray B", "tray B"), bench.now))
    stack = bench.write(moves.finish(bench.sep, bench.now))
    done = stack.past_separations[-1]
    assert (done.outcome, len(done.passes), done.gross_kg) == (Outcome.FINISHED, 1, 6.5)
    assert stack.harvests[-1].castings_kg == 4.4
    assert [tray.id for tray in stack.off_stack] == ["A"]
    assert not stack.findings


def test_timed_steps_store_their_deadline(bench: Bench) -> None:
    bench.start()
    assert bench.sep.step is not None
    assert bench.sep.step.ends_at == bench.sep.step.started_at + timedelta(minutes=3.5)
    bench.write(moves.loosened(bench.sep, bench.profile.bin, bench.now))
    assert bench.sep.step is not None
    assert bench.sep.step.ends_at == bench.sep.step.started_at + timedelta(minutes=15)


def test_a_keepers_own_times_are_used() -> None:
    bench = Bench()
    bench.profile = a_profile(*a_usual_bin(), loosen_minutes=2, rest_minutes=20)
    bench.start()
    bench.write(moves.loosened(bench.sep, bench.profile.bin, bench.now))
    assert bench.sep.step is not None
    assert bench.sep.step.planned == timedelta(minutes=20)


@pytest.mark.parametrize(("by", "expected"), [(5, 19), (-5, 9), (-60, 0)])
def test_a_rest_is_extended_and_shortened_but_never_into_the_past(
    bench: Bench, by: int, expected: int
) -> None:
    bench.start()
    bench.write(moves.loosened(bench.sep, bench.profile.bin, bench.now), 1)
    bench.write(moves.move_deadline(bench.sep, bench.now, timedelta(minutes=by)), 0)
    assert bench.sep.step is not None
    assert bench.sep.step.ends_at == bench.now + timedelta(minutes=expected)


def test_a_rest_that_is_over_runs_on_from_now(bench: Bench) -> None:
    bench.start()
    bench.write(moves.loosened(bench.sep, bench.profile.bin, bench.now), 40)
    bench.write(moves.move_deadline(bench.sep, bench.now, timedelta(minutes=5)), 0)
    assert bench.sep.step is not None
    assert bench.sep.step.ends_at == bench.now + timedelta(minutes=5)


def test_an_untimed_step_has_no_deadline_to_move(bench: Bench) -> None:
    bench.write(moves.begin("A", bench.now))
    assert moves.move_deadline(bench.sep, bench.now, timedelta(minutes=5)) == []
    assert moves.restart_rest(bench.sep, bench.now) == []


def test_a_restarted_rest_has_its_whole_length_again(bench: Bench) -> None:
    bench.start()
    bench.write(moves.loosened(bench.sep, bench.profile.bin, bench.now), 9)
    bench.write(moves.restart_rest(bench.sep, bench.now), 0)
    assert bench.sep.step is not None
    assert bench.sep.step.ends_at == bench.now + timedelta(minutes=15)


def test_putting_back_leaves_the_tray_finishing_at_its_level(bench: Bench) -> None:
    before = bench.stack
    bench.start()
    stack = bench.write(moves.put_back(bench.sep, bench.now))
    assert [tray.id for tray in stack.trays] == [tray.id for tray in before.trays]
    tray = stack.tray("A")
    assert tray is not None
    assert tray.stage is Stage.FINISHING
    assert not stack.separations


def _walk(bench: Bench, steps: int) -> list[tuple[Step | None, int, int]]:
    """Make `steps` moves and return, before each, the step, the pass and how many passes stood."""
    seen = []
    for _ in range(steps):
        running = bench.stack.separation("A")
        seen.append(
            (None, 0, 0) if running is None else (bench.step, running.pass_number, len(running.passes))
        )
        bench.write(_usual_move(bench), 4)
    return seen


def _usual_move(bench: Bench) -> list[Entry]:
    running, setup, now = bench.stack.separation("A"), bench.profile.bin, bench.now
    if running is None or running.step is None:
        return moves.begin("A", now)
    return {
        Step.GET_READY: lambda: moves.ready(running, setup, now, 6.0, ["gloves"]),
        Step.LOOSEN: lambda: moves.loosened(running, setup, now),
        Step.REST: lambda: moves.rested(running, now),
        Step.SKIM: lambda: moves.skimmed(running, Skim(Amount.FEW, 0.8), now),
        Step.DECIDE: lambda: moves.again(running, setup, now),
    }[running.step.step]()


@given(st.integers(1, 12))
def test_back_undoes_each_move_to_the_very_start(steps: int) -> None:
    bench = Bench()
    before = bench.stack
    path = _walk(bench, steps)
    for expected in reversed(path):
        bench.write(moves.back(bench.profile.journal, "A", bench.now))
        running = bench.stack.separation("A")
        now = (None, 0, 0) if running is None else (bench.step, running.pass_number, len(running.passes))
        assert now == expected
    assert [tray.id for tray in bench.stack.trays] == [tray.id for tray in before.trays]
    assert not bench.stack.cautions_read


def test_back_works_when_all_was_pressed_within_one_second(bench: Bench) -> None:
    still = bench.now
    for _ in range(4):
        bench.write(_usual_move(bench), 0)
        bench.now = still
    steps = [bench.step]
    for _ in range(2):
        bench.write(moves.back(bench.profile.journal, "A", bench.now), 0)
        steps.append(bench.step)
    assert steps == [Step.SKIM, Step.REST, Step.LOOSEN]


def test_going_back_to_a_rest_keeps_the_deadline_it_was_given(bench: Bench) -> None:
    bench.start()
    bench.write(moves.loosened(bench.sep, bench.profile.bin, bench.now), 2)
    bench.write(moves.move_deadline(bench.sep, bench.now, timedelta(minutes=10)), 1)
    assert bench.sep.step is not None
    ends_at = bench.sep.step.ends_at
    bench.write(moves.rested(bench.sep, bench.now))
    bench.write(moves.back(bench.profile.journal, "A", bench.now))
    assert bench.sep.step is not None
    assert (bench.step, bench.sep.step.ends_at) == (Step.REST, ends_at)


def test_back_leaves_other_trays_and_notes_alone(bench: Bench) -> None:
    bench.start()
    note = entry("note", bench.now, text="a neighbour came by")
    bench.write([note])
    bench.write(moves.loosened(bench.sep, bench.profile.bin, bench.now))
    written = moves.back(bench.profile.journal, "A", bench.now)
    assert all(isinstance(e, Undone) and e.entry_kind in ("step_started", "step_ended") for e in written)
    bench.write(written)
    assert note in [e for _, e in standing(bench.profile.journal)]


@pytest.mark.parametrize(
    ("seen", "kg", "gross", "stops"),
    [
        (Amount.MANY, None, None, True),
        (Amount.MANY, 0.5, None, True),
        (Amount.MANY, 3.0, 6.0, True),
        (Amount.MANY, 0.5, 6.0, False),
        (Amount.FEW, 0.5, 6.0, False),
        (Amount.NONE, None, None, False),
        (Amount.FEW, 4.0, 6.0, True),
        (Amount.FEW, 4.0, None, False),
    ],
)
def test_the_rule_to_stop(
    bench: Bench, seen: Amount, kg: float | None, gross: float | None, stops: bool
) -> None:
    bench.start(gross)
    bench.one_pass(seen, kg)
    advised, why = moves.advised_to_stop(bench.sep, 0.9)
    assert advised is stops
    assert why.endswith(".")


def test_share_left_counts_only_weighed_passes(bench: Bench) -> None:
    bench.start(5.9)
    bench.one_pass(kg=1.0)
    assert moves.share_left(bench.sep, 0.9) == pytest.approx(0.8)
    bench.write(moves.again(bench.sep, bench.profile.bin, bench.now))
    bench.one_pass(kg=None)
    assert moves.share_left(bench.sep, 0.9) is None


def test_a_clock_set_back_between_two_steps_keeps_their_order(bench: Bench) -> None:
    bench.start()
    bench.now -= timedelta(hours=2)
    bench.write(moves.loosened(bench.sep_now(), bench.profile.bin, bench.now), 0)
    sep = bench.sep_now()
    assert sep.step is not None
    assert (sep.step.step, sep.step.ends_at) == (Step.REST, bench.now + timedelta(minutes=15))
    assert not replay(bench.profile, present(bench.profile, bench.now)).findings


def test_back_after_the_end_opens_the_last_step_again(bench: Bench) -> None:
    bench.start()
    bench.one_pass()
    bench.write(moves.stop(bench.sep, bench.now))
    bench.write(moves.settle(bench.sep, Settling(4.0), bench.now), 0)
    bench.write(moves.finish(bench.sep, bench.now), 0)
    bench.write(moves.back(bench.profile.journal, "A", bench.now))
    assert bench.step == Step.CLEAN_UP
    assert bench.stack.harvests[-1].castings_kg == 4.0


@pytest.mark.parametrize(("mine", "other"), ["AC", "CA"])
@pytest.mark.parametrize("moves_made", [1, 2, 3])
def test_back_on_one_tray_leaves_another_that_was_worked_on_in_the_same_second(
    mine: str, other: str, moves_made: int
) -> None:
    now = moment(DAY)
    profile = a_profile(*a_usual_bin()).with_entries([*moves.begin("A", now), *moves.begin("C", now)])

    def running(tray: str) -> Separation:
        found = replay(profile, now).separation(tray)
        assert found is not None
        return found

    if moves_made > 1:
        for tray in "AC":
            profile = profile.with_entries(moves.ready(running(tray), profile.bin, now, None, ()))
    if moves_made > 2:
        for tray in "AC":
            profile = profile.with_entries(moves.loosened(running(tray), profile.bin, now))
    kept = running(other)
    profile = profile.with_entries(moves.back(profile.journal, mine, now))
    assert running(other) == kept
    left = replay(profile, now).separation(mine)
    step = left.step.step if left is not None and left.step is not None else None
    assert step is [None, Step.GET_READY, Step.LOOSEN][moves_made - 1]
