"""What the keeper is told at each step: the place, the time left, and what comes next."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from tests.builders import a_profile, a_usual_bin, entry, moment
from trayturn.domain.replay import replay
from trayturn.domain.setup import Units
from trayturn.domain.stack import Separation, Stack
from trayturn.procedure.rests import running_rests
from trayturn.procedure.stepper import time_words, view
from trayturn.procedure.summary import pass_lines, summary

START = moment(120, 10, 30)
END = moment(120, 10, 45)


def resting(tray: str = "A", key: str = "pantry", name: str = "Pantry") -> Stack:
    """The usual bin with that tray at rest in its second pass, from half past ten to a quarter to eleven."""
    entries = (
        entry("separation_begun", moment(120, 10), tray=tray),
        entry("step_started", START, tray=tray, step="rest", pass_number=2, ends_at=END),
    )
    return replay(a_profile(*a_usual_bin(), *entries, key=key, name=name), START)


def the_rest() -> Separation:
    return resting().separations[0]


def test_a_running_rest_says_where_you_are_and_what_comes() -> None:
    now = moment(120, 10, 38)
    shown = view(the_rest(), now)
    assert shown is not None
    assert (shown.place, shown.title, shown.running) == ("Step 3 of 7, pass 2", "Rest", True)
    assert shown.left == timedelta(minutes=7)
    assert time_words(shown, now) == "rest ends 10:45, then skim"


@pytest.mark.parametrize(
    ("now", "words"),
    [
        (END, "rest ended 10:45, 0 s ago; now skim"),
        (END + timedelta(minutes=65), "rest ended 10:45, 1 h 5 min ago; now skim"),
        (END + timedelta(days=1), "rest ended yesterday 10:45, 1 day ago; now skim"),
    ],
)
def test_a_rest_that_is_over_says_how_long_ago(now: datetime, words: str) -> None:
    shown = view(the_rest(), now)
    assert shown is not None
    assert not shown.running
    assert shown.left == timedelta(0)
    assert time_words(shown, now) == words


def test_a_clock_set_back_never_stretches_the_rest() -> None:
    now = moment(119, 3)
    shown = view(the_rest(), now)
    assert shown is not None
    assert shown.clock_set_back
    assert shown.left == timedelta(minutes=15)
    assert "clock was set back" in time_words(shown, now)


def test_an_untimed_step_has_no_time_left() -> None:
    begun = (
        entry("separation_begun", START, tray="A"),
        entry("step_started", START, tray="A", step="settle"),
    )
    shown = view(replay(a_profile(*a_usual_bin(), *begun), START).separations[0], END)
    assert shown is not None
    assert (shown.left, shown.over, shown.running, shown.place) == (None, None, False, "Step 6 of 7")
    assert time_words(shown, END) == "since 10:30, then clean up"


def test_no_step_under_way_shows_nothing() -> None:
    begun = entry("separation_begun", START, tray="A")
    assert view(replay(a_profile(*a_usual_bin(), begun), START).separations[0], START) is None


def test_rests_of_several_bins_stand_in_the_order_they_end() -> None:
    late = resting(key="attic", name="Attic")
    later = (
        entry("separation_begun", moment(120, 10), tray="A"),
        entry("step_started", START, tray="A", step="loosen", pass_number=1, ends_at=moment(120, 10, 33)),
    )
    soon = replay(a_profile(*a_usual_bin(), *later, key="shed", name="Shed"), START)
    rests = running_rests([late, soon], START + timedelta(minutes=1))
    assert [rest.bin for rest in rests] == ["shed", "attic"]
    assert (
        rests[1].words(START + timedelta(minutes=1))
        == "Attic, tray A: rest 14:00 left, until 10:45, then skim"
    )


def test_a_rest_over_is_named_and_marked_anew_when_moved() -> None:
    [rest] = running_rests([resting()], END + timedelta(minutes=2))
    assert rest.over
    assert rest.words(END + timedelta(minutes=2)) == "Pantry, tray A: rest over for 2 min. Now skim."
    moved = entry("deadline_moved", END, tray="A", ends_at=END + timedelta(minutes=5))
    begun = (
        entry("separation_begun", moment(120, 10), tray="A"),
        entry("step_started", START, tray="A", step="rest", pass_number=2, ends_at=END),
    )
    [again] = running_rests([replay(a_profile(*a_usual_bin(), *begun, moved), END)], END)
    assert again.mark != rest.mark


def _ended(outcome: str) -> Separation:
    entries = (
        entry("separation_begun", moment(120, 10), tray="A"),
        entry("pass_done", moment(120, 10, 40), tray="A", pass_number=1, worms_seen="few", skimmed_kg=1.2),
        entry(
            "pass_done",
            moment(120, 11),
            tray="A",
            pass_number=2,
            worms_seen="many",
            contaminants="[red]a sticker[/",
        ),
        entry(
            "settled", moment(120, 11, 10), tray="A", castings_kg=4.25, worms_to="tray B", rest_to="tray B"
        ),
        entry("separation_ended", moment(120, 11, 20), tray="A", outcome=outcome),
    )
    return replay(a_profile(*a_usual_bin(), *entries), moment(121)).past_separations[-1]


def test_the_summary_tells_what_came_of_it() -> None:
    lines = summary(_ended("finished"), Units.METRIC)
    assert lines[0] == "Tray A was separated in 2 passes in 1 h 20 min."
    assert lines[1] == "Castings: 4.25 kg, weighed."
    assert "Worms went to: tray B." in lines
    assert lines[-1] == "Pass 2: many worms seen, found [red]a sticker[/."


def test_a_tray_put_back_says_so_in_the_keepers_units() -> None:
    ended = _ended("put_back")
    assert summary(ended, Units.US)[0] == "Tray A went back to its level to finish longer."
    assert pass_lines(ended, Units.US)[0] == "Pass 1: about 2.65 lb skimmed, few worms seen."
