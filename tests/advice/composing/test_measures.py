"""Amounts as they are said: weights, the keeper's own measures, and rules of thumb."""

from __future__ import annotations

from typing import Any

import pytest

from tests.advice.composing.meals import ground
from tests.builders import entry
from trayturn.advice.composing.measures import METRIC_CUP_L, US_CUP_L, Measures
from trayturn.domain.units import GALLON_L, UnitError

OWN = (
    entry("measure_set", 1, measure="handful", kg=0.09),
    entry("measure_set", 1, measure="handful", kg=0.04, of="coffee grounds"),
    entry("measure_set", 1, measure="caddy lid", kg=0.3),
)


def measures(*entries: Any, **setup: Any) -> Measures:
    return ground(*entries, **setup).measures


@pytest.mark.parametrize(
    ("text", "kg", "measure"),
    [
        ("500 g", 0.5, ""),
        ("1 lb", 0.45359237, ""),
        ("2 handfuls", 0.18, "handful"),
        ("a handful", 0.09, "handful"),
        ("handful", 0.09, "handful"),
        ("Half a Handful", 0.045, "handful"),
        ("1,5 handfuls of cabbage", 0.135, "handful"),
        ("½ handful", 0.045, "handful"),
        ("three caddy lids", 0.9, "caddy lid"),
    ],
)
def test_amounts_are_read_as_they_are_typed(text: str, kg: float, measure: str) -> None:
    amount = measures(*OWN).read(text, "cabbage")
    assert amount.kg == pytest.approx(kg)
    assert amount.measure == measure


def test_a_measure_of_one_thing_counts_before_that_of_anything() -> None:
    own = measures(*OWN)
    for name in ("coffee grounds", "Coffee", "spent coffee"):
        assert own.read("2 handfuls", name).kg == pytest.approx(0.08)
    assert own.read("2 handfuls", "zzyzx").kg == pytest.approx(0.18)
    weighed = own.weigh("handful", "coffee grounds")
    assert weighed is not None
    assert (weighed.own, weighed.basis) == (True, "you set a handful of coffee grounds to 40 g")


def test_a_cup_is_a_volume_by_definition_times_the_loose_density() -> None:
    """NIST Handbook 44, appendix C: a cup is 8 fluid ounces, of which a gallon has 128."""
    assert pytest.approx(GALLON_L * 8 / 128, abs=5e-7) == US_CUP_L
    us, metric = measures(units="us"), measures()
    assert us.read("1 cup", "kitchen scraps").kg == pytest.approx(US_CUP_L * 0.839)
    assert metric.read("1 cup", "kitchen scraps").kg == pytest.approx(METRIC_CUP_L * 0.839)
    weighed = us.weigh("cup", "kitchen scraps")
    assert weighed is not None
    assert weighed.basis.startswith(
        "rule of thumb: 236.588 ml (US cup, NIST Handbook 44), loose at 839 kg/m3"
    )


def test_handfuls_and_bowls_are_said_to_be_our_choice() -> None:
    for word in ("handful", "bowl"):
        weighed = measures().weigh(word, "cabbage")
        assert weighed is not None
        assert ("rule of thumb" in weighed.basis, "our choice" in weighed.basis) == (True, True)
    shreds = measures().weigh("handful", "shredded cardboard")
    assert shreds is not None
    assert shreds.kg == pytest.approx(0.010)


@pytest.mark.parametrize(
    ("text", "name", "told"),
    [
        ("much", "cabbage", "is not an amount"),
        ("2 buckets", "cabbage", "is not a unit of mass"),
        ("a caddy", "cabbage", "is not an amount"),
        ("300", "cabbage", "more than fits in the tray"),
        ("2 handfuls", "hay", "What a handful of hay weighs is not known yet"),
        ("-1 g", "cabbage", "below zero"),
    ],
)
def test_a_slip_is_told_with_what_would_do(text: str, name: str, told: str) -> None:
    with pytest.raises(UnitError, match=told):
        measures().read(text, name, most_kg=24)


def test_what_may_be_typed_is_told_in_the_keepers_units() -> None:
    assert measures().hint() == "300 g, 2 handfuls, a cup, half a bowl"
    assert measures(units="us").hint().startswith("8 oz")
    assert measures(*OWN).words == ("handful", "cup", "bowl", "caddy lid")
