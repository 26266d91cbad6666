"""What the passes so far tell: held against separations made up with a known share, and arithmetic."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.separations import (
    MINUTES,
    START,
    Pass,
    a_stack,
    earlier,
    log_odds,
    made_up,
    separation,
)
from trayturn.advice.bands import Band
from trayturn.advice.passes import advised_to_stop, ahead, ahead_words, next_time, next_words, rest_words
from trayturn.domain.entries import Outcome, Step
from trayturn.domain.stack import Separation, StepTimes
from trayturn.science import passes as p

USUAL = log_odds(p.TAKES)


def holds(band: Band, truth: float) -> bool:
    return band.low <= truth <= band.high


@pytest.mark.parametrize("before", [0, 3])
def test_the_band_of_weighed_passes_holds_four_truths_in_five(before: int) -> None:
    # No outside figure: trays are drawn from the model itself, each with a share of its own that is known.
    rng, held = Random(20261121), list[bool]()
    while len(held) < 400:
        mean = rng.gauss(USUAL, p.TRAYS_DIFFER)
        past = earlier([made_up(rng, rng.gauss(mean, p.TRAYS_DIFFER)) for _ in range(before)])
        tray, done = made_up(rng, mean), 1 + len(held) % 4
        if len(tray) > done:
            now = separation([replace(one, seen="few") for one in tray[:done]])
            held.append(holds(ahead(a_stack(now, past), now).passes, len(tray) - done))
    assert 0.7 <= sum(held) / len(held) <= 0.9


@pytest.mark.parametrize("before", [0, 3])
def test_the_band_told_by_sight_alone_holds_four_in_five_too_and_is_wider(before: int) -> None:
    rng, held, widths = Random(20261121), list[bool](), list[float]()
    while len(held) < 400:
        mean, done = rng.gauss(USUAL, p.TRAYS_DIFFER), 1 + len(held) % 4
        past = earlier([made_up(rng, rng.gauss(mean, p.TRAYS_DIFFER)) for _ in range(before)])
        tray = made_up(rng, mean, least=done)
        if any(one.seen == "many" for one in tray[:done]):
            continue
        little = next(n for n, one in enumerate(tray, 1) if one.left <= p.LITTLE_LEFT)
        now, known = separation(tray[:done], weighed=False), separation(tray[:done])
        band = ahead(a_stack(now, past), now).passes
        held.append(holds(band, max(0, little - done)))
        if tray[done - 1].left > p.LITTLE_LEFT:
            told = ahead(a_stack(known, past), known).passes
            widths.append((band.high - band.low) - (told.high - told.low))
    assert 0.7 <= sum(held) / len(held) <= 0.9
    assert sum(widths) / len(widths) > 0.5


def test_the_band_of_rests_holds_four_truths_in_five() -> None:
    rng, held = Random(20261121), []
    usual = math.log(p.USUAL_REST / -math.log(p.LEFT_AFTER_REST))
    for _ in range(300):
        tau = math.exp(rng.gauss(usual, p.WORMS_DIFFER))
        tray = [Pass(0.1, 0.9**n, glance(rng, 15 / tau), 15) for n in range(1, 5)]
        now = separation(tray)
        held.append(holds(ahead(a_stack(now), now).rest, tau * -math.log(p.LEFT_AFTER_REST)))
    assert 0.7 <= sum(held) / len(held) <= 0.9


def glance(rng: Random, gone: float) -> str:
    seen = rng.gauss(-gone, p.GLANCE)
    if seen < math.log(p.NONE_BELOW):
        return "none"
    return "many" if seen > math.log(p.MANY_ABOVE) else "few"


def test_without_anything_it_says_common_practice() -> None:
    told = next_time(a_stack(None))
    assert holds(told.passes, 4)
    assert holds(told.passes, 5)
    assert (told.rest_advised, told.rest_as_set, told.rests_on) == (15, 15, "common practice")
    assert next_words(told)[1] == "That rests on common practice, no source."


def test_the_minutes_are_passes_times_what_one_takes_and_the_settling() -> None:
    # Twelve passes of 4 + 15 + 6 + 1 minutes; the settling is the usual 10 + 5, since nobody has done it yet.
    past = earlier([[Pass(0.3, 0.7**n) for n in range(1, 5)]] * 3)
    told = next_time(a_stack(None, past))
    assert told.minutes == pytest.approx([n * sum(MINUTES.values()) + 15 for n in told.passes])


def test_of_the_pass_under_way_only_what_is_left_of_it_counts() -> None:
    past = earlier([[Pass(0.3, 0.7**n) for n in range(1, 5)]] * 3)
    rest = StepTimes(Step.REST, 1, START + timedelta(minutes=4))
    now = Separation("A", START, 2, (StepTimes(Step.LOOSEN, 1, START, ended_at=rest.started_at), rest))
    stack = replace(a_stack(now, past), as_of=rest.started_at + timedelta(minutes=5))
    told = ahead(stack, now)
    assert told.minutes == pytest.approx([n * 26 - 4 - 5 + 15 for n in told.passes])
    late = ahead(replace(stack, as_of=rest.started_at + timedelta(hours=9)), now)
    assert late.minutes == pytest.approx([n * 26 - 4 - 15 + 15 for n in told.passes])
    assert ahead_words(told, Step.REST)[0].startswith(
        f"{told.passes.low:.0f} to {told.passes.high:.0f} passes"
    )


def test_one_step_left_open_overnight_counts_for_little() -> None:
    calm = [Pass(0.3, 0.7**n) for n in range(1, 5)]
    night = [replace(one, rest=600.0 if n == 2 else 15.0) for n, one in enumerate(calm)]
    one, other = (next_time(a_stack(None, earlier([tray]))) for tray in (calm, night))
    assert other.minutes == pytest.approx(one.minutes)


def test_worms_that_had_nowhere_lower_to_go_tell_nothing_of_the_rest() -> None:
    few = [Pass(0.3, 0.7), Pass(0.3, 0.49), Pass(0.4, 0.3)]
    ended = [*few, Pass(0.4, 0.18, "many")]
    alike = next_time(a_stack(None, earlier([few])))
    assert next_time(a_stack(None, earlier([ended]))).rest == pytest.approx(alike.rest)
    unweighed = next_time(a_stack(None, earlier([ended], weighed=False)))
    assert unweighed.rest == pytest.approx(alike.rest)
    early = [Pass(0.1, 0.9, "many"), *few]
    assert next_time(a_stack(None, earlier([early]))).rest.low > alike.rest.low


def test_many_worms_on_much_that_is_left_ask_for_a_longer_rest_and_not_for_the_end() -> None:
    now = separation([Pass(0.1, 0.9, "many")])
    stops, why = advised_to_stop(now, 0.9)
    assert (stops, why) == (
        False,
        "Many worms came off, but about 90 % is still in the tray (by weight, at the start and of each "
        "skim): they had not gone down yet.",
    )
    told = ahead(a_stack(now), now)
    assert told.rest_advised > told.rest_as_set
    assert rest_words(told).startswith("a longer rest would do better, ")
    assert advised_to_stop(separation([Pass(0.1, 0.9, "many")], weighed=False), 0.9)[0]


@pytest.mark.parametrize("weighed", [True, False])
def test_once_it_is_time_to_stop_only_the_settling_is_left(weighed: bool) -> None:
    now = separation([Pass(0.4, 0.6), Pass(0.4, 0.36), Pass(0.5, 0.18, "many")], weighed=weighed)
    told = ahead(a_stack(now), now)
    assert told.passes == (0, 0, 0)
    assert told.minutes.low == told.minutes.high == pytest.approx(16)
    assert ahead_words(told, Step.DECIDE)[0] == "No more passes, about 15 min to the end."


def test_what_it_rests_on_is_named() -> None:
    three, past = [Pass(0.2, 0.8**n) for n in range(1, 4)], earlier([[Pass(0.5, 0.5), Pass(0.5, 0.25)]] * 2)
    now, guessed = separation(three), separation(three, weighed=False)
    assert ahead(a_stack(now, past), now).rests_on == "3 passes of this tray and 2 earlier trays"
    assert ahead(a_stack(now), now).rests_on == "3 passes of this tray"
    assert ahead(a_stack(guessed), guessed).rests_on == f"3 passes of this tray {SIGHT}"
    told = ahead(a_stack(guessed, past[:1]), guessed)
    assert told.rests_on == f"3 passes of this tray {SIGHT} and 1 earlier tray"
    assert next_time(a_stack(None, past)).rests_on == "2 trays"


SIGHT = "(by sight: no weight at Get ready, no skim weighed)"


def test_what_was_not_weighed_is_named_and_what_was_is_not() -> None:
    """Two skims of 300 g and 2 kg were weighed; the tray itself was not."""
    weighed = separation([Pass(0.2, 0.8), Pass(0.2, 0.6)])
    start = replace(weighed, gross_kg=None)
    assert ahead(a_stack(start), start).rests_on == "2 passes of this tray (by sight: no weight at Get ready)"
    passes = (weighed.passes[0].model_copy(update={"skimmed_kg": None}), weighed.passes[1])
    skim = replace(weighed, passes=passes)
    told = "2 passes of this tray (by sight: 1 of 2 skims not weighed)"
    assert ahead(a_stack(skim), skim).rests_on == told
    light = replace(weighed, gross_kg=0.5)
    assert "at Get ready no heavier than empty" in ahead(a_stack(light), light).rests_on


@pytest.mark.parametrize(("left", "said"), [(0.62, "about 60 %"), (0.58, "about 60 %"), (0.9, "about 90 %")])
def test_what_is_left_is_said_no_finer_than_it_is_weighed(left: float, said: str) -> None:
    _, why = advised_to_stop(separation([Pass(1 - left, left, "many")]), 0.9)
    assert f"{said} is still in the tray (by weight, " in why


def test_next_to_nothing_is_said_as_less_than_five_percent() -> None:
    stops, why = advised_to_stop(separation([Pass(0.99, 0.01)]), 0.9)
    assert stops
    assert "less than 5 % of what it held (by weight, " in why


def test_an_earlier_tray_put_back_unweighed_tells_nothing_of_the_passes() -> None:
    back = [replace(one, outcome=Outcome.PUT_BACK) for one in earlier([[Pass(0.5, 0.5)]], weighed=False)]
    assert next_time(a_stack(None, back)).passes == next_time(a_stack(None)).passes


def test_a_keeper_of_large_passes_is_told_fewer() -> None:
    large, small = (
        earlier([[Pass(share, (1 - share) ** n) for n in range(1, 3)]] * 4) for share in (0.5, 0.12)
    )
    assert next_time(a_stack(None, large)).passes.high < next_time(a_stack(None, small)).passes.low


def tray_of(told: list[tuple[float, str, float]]) -> list[Pass]:
    """Passes with their shares taken one after the other."""
    left, found = 1.0, list[Pass]()
    for share, seen, rest in told:
        left *= 1 - share
        found.append(Pass(share, left, seen, rest))
    return found


PASSES = st.lists(
    st.tuples(st.floats(0.001, 0.99), st.sampled_from(p.SEEN), st.floats(0.01, 3000)), max_size=8
).map(tray_of)


@given(PASSES, st.lists(PASSES, max_size=3), st.booleans())
def test_any_passes_give_bands_in_order(now: list[Pass], past: list[list[Pass]], weighed: bool) -> None:
    running = separation(now, weighed=weighed)
    stack = a_stack(running, earlier(past, weighed=weighed))
    for told in (ahead(stack, running), next_time(stack)):
        for band in (told.passes, told.minutes, told.rest):
            assert 0 <= band.low <= band.mid <= band.high
        assert told.rest_advised == told.rest_as_set or 5 <= told.rest_advised <= 60
        assert all(words.endswith(".") for words in next_words(told))


@given(st.floats(0.15, 0.6))
def test_a_share_that_stays_the_same_is_learned(share: float) -> None:
    steady = [Pass(share, (1 - share) ** n) for n in range(1, 5)]
    truth = math.ceil(math.log(p.LITTLE_LEFT) / math.log(1 - share))
    told = next_time(a_stack(None, earlier([steady] * 12))).passes
    assert told.low <= truth <= told.high
    assert abs(told.mid - truth) <= 1
