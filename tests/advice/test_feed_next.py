"""Which tray is fed next, when, and the reason in the keeper's own words and units."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.builders import a_usual_bin, entry, fed, moment, stack_of, started, turned
from trayturn.advice.feeding import feed_next
from trayturn.domain.stack import Stack

TWO_FED = (started("A", 0, stage="feeding"), started("B", 3, level=2, stage="feeding"))


def reasons(stack: Stack) -> str:
    return " ".join(feed_next(stack).why)


def test_an_empty_bin_starts_its_first_trays() -> None:
    feed = feed_next(stack_of())
    assert (feed.tray, feed.due, feed.ready, feed.what) == (None, None, False, "Start the first trays.")
    assert feed.why[0] == "No tray is on the stack."


def test_the_feeding_tray_is_due_a_whole_interval_after_it_was_fed() -> None:
    due = moment(61) + timedelta(days=12)
    before, then = (stack_of(*a_usual_bin(), as_of=due - timedelta(seconds=n)) for n in (1, 0))
    assert (feed_next(before).tray, feed_next(before).due, feed_next(before).ready) == ("B", due, False)
    assert (feed_next(then).tray, feed_next(then).due, feed_next(then).ready) == ("B", due, True)
    assert feed_next(before).what == "Feed tray B today."
    assert feed_next(then).what == "Feed tray B now."


def test_the_reason_tells_days_dates_counts_and_kilograms() -> None:
    feed = feed_next(stack_of(*a_usual_bin(), fed("B", 64, {"apple": 0.75}), as_of=70))
    assert feed.what == "Feed tray B in 6 days."
    assert feed.why == (
        "Tray B has been the feeding tray since Thu 30 Apr (10 days).",
        "It was last fed on Mon 4 May, 6 days ago (2 feedings, 1.25 kg of scraps so far). "
        "This bin is fed every 12 days, so it is due on Sat 16 May, in 6 days.",
    )


def test_a_us_keeper_reads_pounds_and_fahrenheit() -> None:
    stack = stack_of(*a_usual_bin(), entry("checked", 62, temperature_c=35), as_of=63, units="us")
    assert "1.1 lb of scraps" in reasons(stack)
    assert "95 °F" in reasons(stack)
    assert "39 °F to 86 °F" in reasons(stack)


def test_an_overdue_feeding_says_so() -> None:
    feed = feed_next(stack_of(*a_usual_bin(), as_of=75))
    assert feed.what == "Feed tray B now."
    assert "so it was due on Wed 13 May, 2 days ago." in feed.why[-1]


def test_a_tray_never_fed_is_due_from_the_start_of_its_stage() -> None:
    feed = feed_next(stack_of(started("A", 0), started("B", 0, level=2, stage="feeding"), as_of=5))
    assert (feed.tray, feed.due, feed.ready) == ("B", moment(0), True)
    assert "It has not been fed yet, so it is due now." in feed.why


def test_of_several_feeding_trays_one_never_fed_comes_first() -> None:
    feed = feed_next(stack_of(*TWO_FED, fed("A", 1), as_of=20))
    assert feed.tray == "B"
    assert feed.why[0] == "Trays A and B are being fed, and B has not been fed yet."


def test_of_several_feeding_trays_the_one_fed_least_recently_comes_first() -> None:
    feed = feed_next(stack_of(*TWO_FED, fed("A", 5), fed("B", 4), as_of=20))
    assert (feed.tray, feed.due) == ("B", moment(16))
    assert feed.why[0] == "Trays A and B are being fed, and B was fed least recently."


def test_without_a_feeding_tray_the_oldest_bedding_becomes_it() -> None:
    feed = feed_next(stack_of(started("A", 0), started("B", 9), as_of=20))
    assert (feed.tray, feed.due, feed.ready, feed.instead) == (None, None, False, "A")
    assert feed.what == "Feed tray A: it becomes the feeding tray."
    assert "oldest bedding tray, on the stack for 20 days" in " ".join(feed.why)


def test_with_neither_feeding_nor_bedding_a_tray_is_started() -> None:
    stack = stack_of(started("A", 0), turned("A", 60, A="finishing"), as_of=61)
    assert feed_next(stack).what == "Start tray B with fresh bedding, then feed it."
    lone = stack_of(started("A", 0), turned("A", 60, A="finishing"), as_of=61, trays="A", tray_count=1)
    assert feed_next(lone).what == "Empty a tray and start it afresh."
    assert feed_next(lone).instead is None


def test_a_turn_that_is_due_is_told_to_the_second() -> None:
    due = moment(60) + timedelta(days=60)
    before, then = (stack_of(*a_usual_bin(), as_of=due - timedelta(seconds=n)) for n in (1, 0))
    assert "turn was due" not in reasons(before)
    assert feed_next(then).tray == "B"
    assert feed_next(then).what == "Turn the stack first, or feed tray B now."
    assert feed_next(then).why[-1] == "A turn was due today; tray C is fed after it."


def test_a_feeding_that_is_not_due_yet_still_says_that_a_turn_is() -> None:
    feed = feed_next(stack_of(*a_usual_bin(), fed("B", 118), as_of=121))
    assert (feed.ready, feed.what) == (False, "Turn the stack first, or feed tray B in 9 days.")


def test_feeding_waits_while_a_tray_is_being_separated() -> None:
    begun = entry("separation_begun", 80, tray="A")
    feed = feed_next(stack_of(*a_usual_bin(), begun, as_of=81))
    assert (feed.tray, feed.ready, feed.due) == ("B", False, moment(73))
    assert feed.what == "Feed tray B once tray A is separated."
    assert "A separation is under way; feeding waits until tray A is separated." in feed.why
    over = entry("separation_ended", 81, tray="A")
    assert feed_next(stack_of(*a_usual_bin(), begun, over, as_of=81)).ready


def test_two_separations_at_once_are_both_named() -> None:
    both = [entry("separation_begun", 80, tray=tray) for tray in "AC"]
    assert feed_next(stack_of(*a_usual_bin(), *both, as_of=81)).what == (
        "Feed tray B once trays A and C are separated."
    )


@pytest.mark.parametrize(("celsius", "said"), [(3.9, "warmer"), (4.0, ""), (30.0, ""), (30.1, "cooler")])
def test_heat_and_cold_beyond_the_published_limits_are_told(celsius: float, said: str) -> None:
    stack = stack_of(*a_usual_bin(), entry("checked", 62, temperature_c=celsius), as_of=63)
    assert ("Table 18.3" in reasons(stack)) is bool(said)
    assert said in reasons(stack)
    assert feed_next(stack).tray == "B"


def test_only_the_last_temperature_counts() -> None:
    readings = (entry("checked", 62, temperature_c=34), entry("checked", 63, temperature_c=20))
    assert "°C" not in reasons(stack_of(*a_usual_bin(), *readings, as_of=64))


def test_intervals_that_are_not_whole_days() -> None:
    feed = feed_next(stack_of(*a_usual_bin(), as_of=62, days_between_feedings=1.5))
    assert feed.due == moment(62.5)
    assert "This bin is fed every 1.5 days" in feed.why[-1]
    daily = feed_next(stack_of(*a_usual_bin(), as_of=62, days_between_feedings=1))
    assert "This bin is fed every day" in daily.why[-1]
