"""When a bin should rest from feeding, why, and until when."""

from __future__ import annotations

from typing import Any

import pytest

from tests.builders import a_usual_bin, entry, fed, moment, stack_of, started
from trayturn.advice.due import Press, due_list
from trayturn.advice.feeding import FeedNext, feed_next
from trayturn.advice.resting import Rest, foul, leading, rests_until
from trayturn.domain.entries import Entry


def feed(*entries: Entry, as_of: float = 75, **setup: Any) -> FeedNext:
    """The next feeding of the usual bin, whose tray B is due on day 73."""
    return feed_next(stack_of(*a_usual_bin(), *entries, as_of=as_of, **setup))


def codes(found: FeedNext) -> list[str]:
    return [rest.code for rest in found.rests]


def look_again(day: float, due: float, code: str = "too-wet", **fields: Any) -> Any:
    return entry("follow_up_set", day, **{"code": code, "what": "Look again", "due": moment(due), **fields})


def test_a_bin_that_is_well_does_not_rest() -> None:
    found = feed(entry("checked", 72, tray="B", moisture_pct=75, temperature_c=20, smell="earthy"))
    assert (found.rests, found.ready, found.what) == ((), True, "Feed tray B now.")


@pytest.mark.parametrize(
    ("celsius", "code", "end"),
    [(3.9, "cold", "it is warmer"), (4.0, "", ""), (30.0, "", ""), (30.1, "hot", "it is cooler")],
)
def test_beyond_the_published_temperatures_it_rests_until_they_are_over(
    celsius: float, code: str, end: str
) -> None:
    """Edwards 1988, as printed in Earthworm Ecology 2004, table 18.3: 4 to 30 C."""
    found = feed(entry("checked", 72, temperature_c=celsius))
    assert codes(found) == [code] * bool(code)
    assert found.ready is not bool(code)
    assert found.what == (f"Feed tray B once {end}." if code else "Feed tray B now.")
    read_again = feed(entry("checked", 72, temperature_c=celsius), entry("checked", 74, temperature_c=18))
    assert read_again.ready


@pytest.mark.parametrize(("percent", "wet"), [(90.0, False), (90.1, True)])
def test_a_wet_tray_rests_until_it_is_checked_again(percent: float, wet: bool) -> None:
    """Edwards 1988: 90 % is the most."""
    found = feed(entry("checked", 72, tray="B", moisture_pct=percent))
    assert codes(found) == ["wet"] * wet
    if wet:
        assert found.what == "Feed tray B once it is checked again on Tue 19 May."
        assert (found.due, found.ready) == (moment(79), False)
        assert "Tray B was read at 90.1 % moisture on Tue 12 May, 3 days ago" in " ".join(found.why)
    drier = entry("checked", 74, tray="B", moisture_pct=80)
    assert feed(entry("checked", 72, tray="B", moisture_pct=percent), drier).ready


def test_another_tray_that_is_wet_keeps_no_food_from_this_one() -> None:
    assert feed(entry("checked", 72, tray="A", moisture_pct=95)).ready


def test_a_foul_smell_rests_until_the_next_check_and_ends_with_it() -> None:
    smelled = entry("checked", 72, tray="A", smell="rotten eggs")
    found = feed(smelled)
    assert (codes(found), found.what) == (["smell"], "Feed tray B once it is checked again on Tue 19 May.")
    assert 'Tray A smelled of "rotten eggs" on Tue 12 May, 3 days ago.' in found.rests[0].why
    same_day = entry("checked", moment(72, 11), tray="C", feel="moist")
    assert codes(feed(smelled, same_day)) == ["smell"]
    assert feed(smelled, entry("checked", 74, tray="C", feel="moist")).ready
    assert feed(smelled, entry("checked", moment(72, 12), tray="A", smell="earthy")).ready


def test_a_check_that_is_overdue_has_no_day_to_wait_for() -> None:
    found = feed(entry("checked", 62, smell="ammonia"), as_of=75)
    assert (found.what, found.rests[0].until) == ("Feed tray B once it is checked again.", None)


@pytest.mark.parametrize(
    ("smell", "is_foul"),
    [
        ("ammonia, fainter", True),
        ("like Ammonia", True),
        ("rotting cabbage", True),
        ("putrid", True),
        ("no ammonia", False),
        ("the ammonia is gone", False),
        ("sour", False),
        ("carrots", False),
        ("earthy", False),
        ("", False),
    ],
)
def test_what_counts_as_foul(smell: str, is_foul: bool) -> None:
    assert foul(smell) is is_foul


def test_a_follow_up_gives_the_day_and_looking_ends_it() -> None:
    wet, again = entry("checked", 72, tray="B", moisture_pct=95), look_again(72, 82, tray="B")
    found = feed(wet, again)
    assert (codes(found), found.due) == (["wet", "follow_up"], moment(82))
    assert found.what == "Feed tray B once it is looked at again on Fri 22 May."
    assert "Food is held back until the follow-up of tray B: Look again" in found.why
    late = feed(wet, again, as_of=83)
    assert (late.what, late.ready) == ("Feed tray B once it is looked at again.", False)
    assert feed(wet, again, entry("done", 83, item="follow_up:too-wet:B"), as_of=83).ready


@pytest.mark.parametrize(
    ("fields", "stops"),
    [
        ({"code": "overfed"}, True),
        ({"code": "much-nitrogen"}, True),
        ({"code": "too-wet", "tray": "B"}, True),
        ({"code": "too-wet", "tray": "A"}, False),
        ({"code": "fruit-flies"}, False),
    ],
)
def test_only_what_tells_against_food_stops_it(fields: dict[str, Any], stops: bool) -> None:
    assert codes(feed(look_again(72, 80, **fields))) == ["follow_up"] * stops


def test_a_follow_up_alone_holds_food_back_until_its_day_and_no_longer() -> None:
    again = look_again(72, 80)
    assert feed(again, as_of=79.9).what == "Feed tray B once it is looked at again today."
    assert feed(again, as_of=80).ready
    assert rests_until(stack_of(*a_usual_bin(), again, look_again(72, 90, tray="A"), as_of=75)) == (
        moment(90),
        "Food is held back until the follow-up of tray A: Look again",
    )


def test_another_trouble_that_is_over_does_not_end_the_rest() -> None:
    wet = entry("checked", 72, tray="B", moisture_pct=95)
    for item in ("follow_up:too-wet:A", "follow_up:fruit-flies", "check", "follow_up"):
        assert codes(feed(wet, entry("done", 74, item=item))) == ["wet"], item
    assert feed(wet, entry("done", 74, item="follow_up:too-wet")).ready
    again = entry("checked", moment(74, 12), tray="B", moisture_pct=94)
    assert codes(feed(wet, entry("done", 74, item="follow_up:too-wet"), again)) == ["wet"]


def test_an_interval_that_is_longer_than_the_rest_keeps_its_day() -> None:
    found = feed(entry("checked", 63, smell="ammonia"), fed("B", 64), as_of=65)
    assert (found.what, found.due, found.ready) == ("Feed tray B in 11 days.", moment(76), False)


def test_bedding_that_would_be_fed_first_waits_too() -> None:
    cold = entry("checked", 1, temperature_c=2)
    stack = stack_of(started("A", 0), entry("worms_added", 0, worms_kg=0.5), cold, as_of=2)
    assert feed_next(stack).what == "Feed tray A once it is warmer: it becomes the feeding tray."
    (due,) = [due for due in due_list(stack) if due.kind == "feed"]
    assert (due.press, due.due) == (Press.WAITS, None)


def test_the_due_list_does_not_press_for_a_feeding_that_should_rest() -> None:
    stack = stack_of(*a_usual_bin(), entry("checked", 72, temperature_c=2), as_of=75)
    (due,) = [due for due in due_list(stack) if due.kind == "feed"]
    assert (due.pressing, due.what) == (False, "Feed tray B once it is warmer.")
    assert (due.press, due.when(stack.as_of)) == (Press.WAITS, "waits")
    assert [one.kind for one in due_list(stack)] == ["check", "turn", "feed", "start"]


def test_the_reason_without_a_day_leads_and_else_the_latest() -> None:
    def rest(code: str, day: int | None) -> Rest:
        return Rest(code, "", None if day is None else moment(day), "", "")

    assert leading([]) is None
    dated = [rest("a", 3), rest("b", 9), rest("c", 9)]
    assert leading(dated) == dated[1]
    assert leading([*dated, rest("d", None)]) == rest("d", None)
