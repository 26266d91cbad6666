"""Moisture in words with its band, and how a tray is drawn."""

from __future__ import annotations

import pytest
from hypothesis import given

from tests.advice.stacks import Case, cases
from tests.builders import entry, fed, stack_of, started, turned
from trayturn.advice.reading import Texture, fill, moisture_caution, moisture_of, moisture_words, texture
from trayturn.domain.entries import Entry
from trayturn.domain.stack import TrayState


def tray_with(*entries: Entry, as_of: float = 10, tray: str = "A") -> TrayState:
    """Tray A of a bin that began with it."""
    found = stack_of(started("A", 0), *entries, as_of=as_of).tray(tray)
    assert found is not None
    return found


def checked(day: float = 5, **reading: object) -> Entry:
    made: Entry = entry("checked", day, tray="A", **reading)
    return made


@pytest.mark.parametrize(
    ("feel", "low", "high"), [("dry", 45, 55), ("damp", 65, 75), ("moist", 75, 85), ("wet", 85, 95)]
)
def test_a_squeeze_test_is_a_rough_percentage_and_five_points_either_way(
    feel: str, low: float, high: float
) -> None:
    moisture = moisture_of(tray_with(checked(feel=feel)))
    assert (moisture.word, moisture.low, moisture.high, moisture.by_feel) == (feel, low, high, True)


@pytest.mark.parametrize(
    ("percent", "word"), [(0, "dry"), (59, "dry"), (61, "damp"), (74, "damp"), (76, "moist"), (100, "wet")]
)
def test_a_percentage_is_shown_as_it_was_read(percent: float, word: str) -> None:
    moisture = moisture_of(tray_with(checked(moisture_pct=percent)))
    assert (moisture.low, moisture.percent, moisture.high) == (percent, percent, percent)
    assert (moisture.word, moisture.by_feel) == (word, False)


def test_a_percentage_counts_before_the_feel_of_the_same_check() -> None:
    assert moisture_of(tray_with(checked(moisture_pct=82, feel="dry"))).percent == 82


def test_moisture_in_words_tells_how_old_it_is() -> None:
    stack = stack_of(started("A", 0), started("B", 1), checked(7, feel="damp"), as_of=10)
    said = {tray.id: moisture_words(tray, stack) for tray in stack.trays}
    assert said == {"A": "damp, about 70 %, checked 3 days ago", "B": "moisture not checked"}
    exact = stack_of(started("A", 0), checked(10, moisture_pct=72.4), as_of=10)
    assert moisture_words(exact.trays[0], exact) == "damp, 72 %, checked today"


def test_nobody_looked_is_unknown_and_a_later_check_without_moisture_changes_nothing() -> None:
    unknown = moisture_of(tray_with())
    assert (unknown.word, unknown.percent, unknown.comfortable) == ("", None, None)
    assert moisture_of(tray_with(checked(4, feel="wet"), checked(6, ph=7.0))).word == "wet"


@pytest.mark.parametrize(
    ("percent", "said"), [(59.9, "Add water"), (60, ""), (90, ""), (90.1, "Mix in dry bedding")]
)
def test_only_readings_outside_the_published_limits_are_cautioned(percent: float, said: str) -> None:
    caution = moisture_caution(tray_with(checked(moisture_pct=percent)))
    assert said in caution
    assert bool(caution) is bool(said)


def test_fresh_bedding_is_dry_shreds_until_it_soaks() -> None:
    assert texture(tray_with()) is Texture.DRY_SHREDS
    assert texture(tray_with(as_of=14)) is Texture.SOAKED
    assert texture(tray_with(checked(feel="dry"), as_of=40)) is Texture.DRY_SHREDS
    assert texture(tray_with(checked(feel="damp"))) is Texture.SOAKED
    watered = stack_of(started("A", 0, water_kg=1.5), as_of=0).trays[0]
    assert texture(watered) is Texture.SOAKED


def test_texture_follows_the_stage() -> None:
    assert texture(tray_with(fed("A", 2))) is Texture.FOOD
    assert texture(tray_with(fed("A", 2), turned("A", 9, A="finishing"))) is Texture.CASTINGS
    assert texture(tray_with(turned("B", 9))) is Texture.EMPTY


def test_half_a_kilogram_of_fresh_shreds_fills_a_tray_and_settles() -> None:
    setup = stack_of().setup
    fresh, later = fill(tray_with(as_of=0), setup), fill(tray_with(as_of=60), setup)
    assert (fresh.fraction, fresh.basis) == (1.0, "reckoned")
    assert 0.35 < later.fraction < 0.6


def test_food_fills_and_a_finishing_tray_sinks() -> None:
    setup = stack_of().setup
    before, after = tray_with(as_of=60), tray_with(fed("A", 59, {"pumpkin": 5.0}), as_of=60)
    assert fill(after, setup).fraction > fill(before, setup).fraction
    finished = tray_with(fed("A", 40, {"pumpkin": 5.0}), turned("A", 60, A="finishing"), as_of=120)
    assert fill(finished, setup).fraction < 0.4


def test_a_weight_counts_until_something_is_put_in() -> None:
    setup = stack_of().setup
    done, weighed = turned("A", 60, A="finishing"), checked(70, gross_kg=0.9 + 8.4)
    tray = tray_with(done, weighed, as_of=71)
    assert fill(tray, setup).fraction == pytest.approx(0.5)
    assert fill(tray, setup).basis == "weighed"
    assert fill(tray_with(done, weighed, fed("A", 71), as_of=72), setup).basis == "reckoned"


def test_a_weight_below_the_empty_tray_is_an_empty_tray() -> None:
    assert fill(tray_with(checked(gross_kg=0.5)), stack_of().setup).fraction == 0


def test_unknown_contents_are_drawn_by_age_alone() -> None:
    tray = stack_of(entry("tray_started", 0, tray="A"), as_of=0).trays[0]
    assert (fill(tray, stack_of().setup).fraction, fill(tray, stack_of().setup).basis) == (0.8, "assumed")
    assert fill(tray_with(turned("B", 9)), stack_of().setup).fraction == 0


@given(cases())
def test_no_tray_is_drawn_above_its_rim(case: Case) -> None:
    stack = case.stack
    assert all(0 <= fill(tray, stack.setup).fraction <= 1 for tray in (*stack.trays, *stack.off_stack))
