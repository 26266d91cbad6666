"""What was measured, and how far each reading may be off."""

from __future__ import annotations

import pytest

from tests.builders import a_profile, a_usual_bin, entry, moment, started
from trayturn.advice.outlook.history import history_of
from trayturn.advice.outlook.measured import Reading, readings_of
from trayturn.domain.entries import Entry


def readings(*entries: Entry, now: float = 100) -> tuple[Reading, ...]:
    profile = a_profile(*a_usual_bin(), *entries)
    return readings_of(history_of(profile, moment(now)), profile)


def checked(day: float = 70, **fields: object) -> Entry:
    found: Entry = entry("checked", day, **fields)
    return found


def separated(kg: float, day: float = 80) -> list[Entry]:
    return [
        entry("separation_begun", day, tray="A"),
        entry("settled", moment(day, 11), tray="A", castings_kg=kg),
        entry("separation_ended", moment(day, 12), tray="A"),
    ]


def test_castings_on_the_scale_that_can_carry_them() -> None:
    (light,), (heavy,) = readings(*separated(4.5)), readings(*separated(6.0))
    assert (light.kind, light.what.value, light.what.sd, light.what.tray) == ("castings", 4.5, 0.02, "A")
    assert heavy.what.sd == 0.05
    assert light.entry == len(a_usual_bin()) + 2


def test_a_trays_weight_is_less_its_own_and_as_far_off_as_the_whole() -> None:
    """6.0 kg on a bathroom scale is 0.3 kg off; of 5.1 kg of contents that is 5.9 %."""
    (one,) = readings(checked(tray="A", gross_kg=6.0))
    assert one.what.value == pytest.approx(6.0 - 0.9)
    assert one.what.sd == pytest.approx(0.05 * 6.0 / 5.1)


def test_moisture_by_feel_counts_as_its_middle() -> None:
    by_meter, by_feel = readings(checked(tray="A", moisture_pct=72.0), checked(71, tray="A", feel="moist"))
    assert (by_meter.what.value, by_feel.what.value) == (0.72, 0.80)
    assert by_meter.what.sd == by_feel.what.sd >= 0.05


def test_worms_sump_and_food_left() -> None:
    found = readings(checked(tray="B", worms_kg=1.2, sump_l=2.0, food_left_pct=25.0))
    assert [(one.kind, one.what.value, one.what.tray) for one in found] == [
        ("sump", 2.0, None),
        ("worms", 1.2, None),
        ("food left", 0.25, "B"),
    ]
    assert found[0].what.sd == pytest.approx(0.4)


@pytest.mark.parametrize(
    "nothing",
    [
        checked(tray="E", gross_kg=6.0),
        checked(tray="A", gross_kg=0.9),
        checked(tray="A", temperature_c=18.0, ph=7.0),
        entry("settled", 70, tray="B", castings_kg=2.0),
        checked(101, tray="A", moisture_pct=70.0),
    ],
)
def test_what_tells_nothing(nothing: Entry) -> None:
    """A tray off the stack, an empty one, other readings, castings of no separation, what lies ahead."""
    assert readings(nothing) == ()


def test_castings_settled_twice_count_once() -> None:
    begun, settled, ended = separated(4.5)
    again = entry("settled", moment(80, 11, 30), tray="A", castings_kg=9.0)
    assert [one.what.value for one in readings(begun, settled, again, ended)] == [4.5]


def test_what_is_older_than_the_model_goes_back_is_left_out() -> None:
    old = checked(70, tray="A", moisture_pct=72.0)
    assert readings(old, now=80) != ()
    assert readings(old, started("D", 1900), now=900) == ()
