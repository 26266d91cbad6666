"""The sums of the ledger: what is added up, what is not, and the keeper's own yield."""

from __future__ import annotations

import math
import statistics
from datetime import datetime
from typing import Any

import pytest
from hypothesis import given

from tests.advice.ledger.turns import bin_of, book, one_turn, separation
from tests.builders import entry, moment
from tests.domain.test_replay_any import AS_OF, profiles
from tests.test_sample_profiles import sample, stack_of
from trayturn.advice.bands import Band
from trayturn.advice.ledger.books import in_all, ledger_of
from trayturn.advice.ledger.sums import (
    STAYS,
    against_published,
    forecast_line,
    kept_line,
    ratio,
    sum_line,
    sum_story,
    under_way_lines,
    weighed_words,
    yield_line,
)
from trayturn.advice.ledger.table import OF_ALL, OF_ONE, heading, sum_row, sums_of, turn_line
from trayturn.advice.pantry import pantry_of, shipped_pantry
from trayturn.advice.past.year import castings
from trayturn.domain.entries import Entry
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.setup import Units

METRIC = Units.METRIC


def five() -> tuple[Entry, ...]:
    """Five turns of one tray, of which two are weighed and one in part."""
    weights: tuple[dict[str, Any], ...] = (
        {"settled": 2.0},
        {},
        {"skims": (0.5, None)},
        {"settled": 3.0},
        {"skims": (None,)},
    )
    return tuple(one for n, how in enumerate(weights) for one in one_turn(day=150 * n, **how))


def test_what_is_not_weighed_is_in_no_sum() -> None:
    one = book(*five())
    totals = one.totals
    assert (totals.turns, totals.weighed, totals.in_part) == (5, 2, 1)
    assert totals.castings_kg == pytest.approx(5.5)
    assert totals.scraps_kg == pytest.approx(20)
    assert weighed_words(totals) == "2 of 5 turns weighed, 1 more in part"
    line = sum_line("In all", totals, METRIC)
    assert "2 of 5 turns weighed, 1 more in part, at least 5.5 kg of castings" in line
    assert "What 2 gave is not known." in line


def test_the_yield_is_the_mean_of_the_turns_that_tell_of_it_with_its_spread() -> None:
    own = book(*five()).totals.per_scraps
    assert own is not None
    values = [2.0 / 4, 3.0 / 4]
    assert own.mean == pytest.approx(statistics.mean(values))
    assert own.sd == pytest.approx(statistics.stdev(values))
    assert (own.low, own.high, own.turns) == (0.5, 0.75, 2)
    told = yield_line(book(*five()).totals, METRIC)
    assert "0.62 (0.5 to 0.75) for each kg of scraps" in told or "0.63 (0.5 to 0.75)" in told
    assert "from 2 turns" in told
    assert "(standard deviation)" in " ".join(sum_story("In all", book(*five()).totals, METRIC))


def test_one_turn_has_a_yield_and_no_spread() -> None:
    totals = book(*one_turn(settled=2.0)).totals
    assert totals.per_scraps is not None
    assert totals.per_scraps.sd is None
    assert "0.5 for each kg of scraps" in yield_line(totals, METRIC)
    assert yield_line(book(*one_turn()).totals, METRIC).startswith("No yield yet")
    assert yield_line(book().totals, METRIC) == ""
    assert kept_line(book().totals) == ""


def test_years_are_those_in_which_the_separations_ended() -> None:
    one = book(*five())
    assert list(one.years) == [2028, 2027, 2026]
    assert [one.years[year].turns for year in one.years] == [1, 2, 2]
    labels = [label for label, _ in sums_of([one], one.totals)]
    assert labels == ["2028", "2027", "2026", "in all"]
    assert [label for label, _ in sums_of([book(*one_turn())], book(*one_turn()).totals)] == ["in all"]


def test_a_separation_under_way_is_told_and_in_no_sum() -> None:
    running = [
        entry("separation_begun", 100, tray="A"),
        entry("pass_done", 100.1, tray="A", pass_number=1, worms_seen="none", skimmed_kg=0.7),
    ]
    one = book(*one_turn()[:2], *running)
    assert one.turns == ()
    assert under_way_lines(one) == ["Tray A is being separated: 700 g so far, in no sum yet."]
    assert under_way_lines(one, "Shed") == ["Shed, tray A is being separated: 700 g so far, in no sum yet."]


@pytest.mark.parametrize(
    ("kept", "word"),
    [
        (Band(0.45, 0.5, 0.55), "agrees"),
        (Band(0.3, 0.35, 0.42), "agrees"),
        (Band(0.7, 0.8, 0.9), "more"),
        (Band(0.1, 0.2, 0.3), "less"),
    ],
)
def test_a_share_is_set_beside_the_published_one(kept: Band, word: str) -> None:
    """50 +- 10 % of the solids are lost (Pondicherry University): 40 to 60 % stay."""
    assert pytest.approx((0.4, 0.5, 0.6)) == STAYS
    assert word in against_published(kept)
    assert "40 to 60 %" in against_published(kept)


def test_a_ratio_is_said_with_two_figures() -> None:
    assert [ratio(one) for one in (None, 0.629, 1.735, 12.3, 123.0)] == ["-", "0.63", "1.7", "12", "120"]


def test_rows_and_sums_stand_under_their_headings() -> None:
    one = book(*five())
    for columns in (OF_ONE, OF_ALL):
        head = heading(columns, METRIC)
        lines = [turn_line(turn, "Pantry", columns, one.as_of, METRIC, wrong=True) for turn in one.turns]
        lines.append(sum_row("in all", one.totals, columns, METRIC))
        place = head.index("castings")
        assert [line[place - 1] for line in lines] == [" "] * 6
        assert lines[0][place:].startswith("! not weighed")
        assert lines[-1][place:].startswith("at least 5.5 kg")
        assert all(len(line) <= 78 for line in (head, *lines))
    long = sum_row("a name that is far too long for it", one.totals, OF_ONE, METRIC)
    assert long.index("20 kg") == heading(OF_ONE, METRIC).index("scraps")


def test_the_samples_keep_about_what_is_published() -> None:
    """Half of the solids, give or take 10 points: the samples were made to be believable."""
    for name in ("stairwell", "workshop", "school"):
        one = ledger_of(stack_of(name), pantry_of(sample(name)))
        assert one.remarks == ()
        assert one.totals.kept is not None
        assert "agrees" in kept_line(one.totals)


@given(profiles(), AS_OF)
def test_sums_are_the_sums_of_their_rows(profile: Profile, as_of: datetime) -> None:
    stack = replay(profile, as_of)
    one = ledger_of(stack, shipped_pantry())
    weights = [turn.castings.kg for turn in one.turns if turn.castings.kg is not None]
    assert one.totals.castings_kg == pytest.approx(math.fsum(weights))
    assert one.totals.scraps_kg == pytest.approx(math.fsum(turn.scraps_kg for turn in one.turns))
    assert one.totals.turns == len(stack.lives) == sum(year.turns for year in one.years.values())
    by_year = math.fsum(year.castings_kg for year in one.years.values())
    assert by_year == pytest.approx(one.totals.castings_kg)
    assert in_all([one, one]).castings_kg == pytest.approx(2 * one.totals.castings_kg)
    assert one.totals.weighed + one.totals.in_part <= one.totals.turns
    assert all(turn.solids_kg >= 0 and turn.days >= 0 for turn in one.turns)


@given(profiles(), AS_OF)
def test_the_past_year_counts_the_same_castings(profile: Profile, as_of: datetime) -> None:
    """But for those of separations under way, and of trays that were put back and are not emptied yet."""
    stack = replay(profile, as_of)
    if stack.separations or any(one.outcome == "put_back" for one in stack.past_separations):
        return
    told = math.fsum(kg for _, kg in castings(stack))
    assert told == pytest.approx(ledger_of(stack, shipped_pantry()).totals.castings_kg)


def test_an_old_separation_without_anything_weighed_still_reads() -> None:
    one = book(*one_turn()[:2], *separation("A", 100))
    assert one.turns[0].castings.kg is None
    assert one.turns[0].life.ended_at == moment(100.6)


def test_forecasts_are_summed_over_the_weighed_turns_that_had_one() -> None:
    """1 kg within 0.8 to 1.1, 2 kg beside 3 to 4; the turn not weighed is set against nothing."""
    journal = (*one_turn(settled=1.0), *one_turn(day=150, settled=2.0), *one_turn(day=300))
    bands = {("A", moment(day)): band for day, band in ((0, Band(0.8, 0.9, 1.1)), (150, Band(3, 3.5, 4)))}
    stack, pantry = bin_of(*journal)
    totals = ledger_of(stack, pantry, {**bands, ("A", moment(300)): Band(1, 2, 3)}).totals
    told = totals.foretold
    assert told is not None
    assert (told.turns, told.held, told.castings_kg) == (2, 1, 3.0)
    assert told.forecast_kg == pytest.approx((3.8, 4.4, 5.1))
    said = forecast_line(totals, Units.METRIC)
    assert "expect 3.8 kg to 5.1 kg in all; 3 kg came. Its band held for 1 of 2 turns" in said
    assert forecast_line(ledger_of(stack, pantry).totals, Units.METRIC) == ""
