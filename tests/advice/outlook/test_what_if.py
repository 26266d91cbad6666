"""What if: today's plan beside another, and what to do."""

from __future__ import annotations

from functools import cache

import pytest

from tests.advice.outlook.keepers import kept, usual_plan
from tests.builders import a_profile, moment
from trayturn.advice.outlook.what_if import Compared, WhatIf, read_what_if, what_if
from trayturn.domain.setup import Units
from trayturn.domain.units import UnitError

NOW = moment(130)


@cache
def compared(words: str, **plan: float) -> Compared:
    return what_if(
        kept(130), NOW, read_what_if(words), 150, usual_plan(**plan) if plan else usual_plan(), draws=80
    )


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("holiday=14", WhatIf("holiday", 14)),
        ("holiday", WhatIf("holiday", 14)),
        ("Holiday = 21 days", WhatIf("holiday", 21)),
        ("cold=5C:14", WhatIf("cold", 14, 5)),
        ("cold=3C", WhatIf("cold", 14, 3)),
        ("heat", WhatIf("heat", 7, 32)),
        ("heat=95F:3", WhatIf("heat", 3, 35)),
        ("double-scraps", WhatIf("double-scraps")),
        ("half-worms", WhatIf("half-worms")),
        ("double-bedding", WhatIf("double-bedding")),
    ],
)
def test_what_is_typed(text: str, meant: WhatIf) -> None:
    found = read_what_if(text)
    assert (found.kind, found.days) == (meant.kind, meant.days)
    assert found.celsius == pytest.approx(meant.celsius)


@pytest.mark.parametrize(
    "slip",
    [
        *("", "sauna", "holiday=0", "holiday=two", "holiday=14 kg", "holiday=9999"),
        *("cold=5C:0", "cold=99C", "cold=x", "heat=1e9", "double-scraps=3"),
    ],
)
def test_a_slip_is_told_in_a_sentence(slip: str) -> None:
    with pytest.raises(UnitError, match=r"\.$"):
        read_what_if(slip)


def test_bare_degrees_are_the_keepers() -> None:
    assert read_what_if("cold=41:7", Units.US).celsius == pytest.approx(5)


def test_nothing_is_turned_or_fed_on_a_holiday() -> None:
    both = compared("holiday=30")
    assert both.said == "30 days away"
    back = moment(131 + 30).date()
    assert not [one for one in both.then.harvests if moment(131).date() <= one.date.date() < back]
    assert both.then.harvests[0].date >= both.today.harvests[0].date
    last = both.then.series["worms"]
    assert last.p50[-1] < both.today.series["worms"].p50[-1]
    assert any("instead of" in said for said in both.differences)
    told = " ".join(both.do)
    assert "Give the last meal" in told
    assert "dry bedding" in told
    assert "have somebody feed once" not in told


def test_a_long_holiday_needs_somebody_to_feed() -> None:
    assert any("have somebody feed once" in said for said in compared("holiday=60").do)


def test_the_cold_slows_all_and_the_limits_are_the_published_ones() -> None:
    both = compared("cold=5C:60")
    cold, was = both.then.series["castings"], both.today.series["castings"]
    assert cold.p50[cold.days.index(0.0)] == was.p50[was.days.index(0.0)]
    assert cold.p50[-1] < 0.95 * was.p50[-1]
    told = " ".join(both.do)
    assert "4 °C" in told
    assert "Edwards 1988" in told
    assert "feed nothing" in " ".join(compared("cold=2C").do)


def test_the_heat_has_its_published_limits_and_what_is_not_known() -> None:
    told = " ".join(compared("heat").do)
    assert "30 °C" in told
    assert "worms die" in told
    assert "knows no death by heat" in told
    assert "thin layers" in " ".join(compared("heat=28C:3").do)


def test_twice_the_scraps_make_more_and_wetter() -> None:
    both = compared("double-scraps")
    assert both.then.harvests[-1].castings_kg.p50 > 1.2 * both.today.harvests[-1].castings_kg.p50
    assert sum(both.then.series["sump"].p50) > sum(both.today.series["sump"].p50)
    assert any("twice the dry bedding" in said for said in both.do)


def test_half_the_worms_are_half_at_first_and_catch_up() -> None:
    both = compared("half-worms")
    worms, was = both.then.series["worms"], both.today.series["worms"]
    today = worms.days.index(0.0)
    assert worms.p50[today + 1] == pytest.approx(0.5 * was.p50[today + 1], rel=0.05)
    assert worms.p50[-1] > 0.6 * was.p50[-1]
    assert any("back to what they were" in said for said in both.do)


def test_twice_the_bedding_keeps_it_drier() -> None:
    both = compared("double-bedding", scraps_kg_per_week=2.0, bedding_ratio=0.1)
    assert sum(both.then.series["sump"].p50) < sum(both.today.series["sump"].p50)
    assert any("more dry bedding" in said for said in both.do)


def test_no_difference_is_said_in_a_sentence() -> None:
    assert compared("heat=20C:1").differences == ("Nothing differs by more than the bands can tell.",)


def test_an_empty_bin_has_nothing_to_compare() -> None:
    both = what_if(a_profile(), moment(0), WhatIf("half-worms"))
    assert both.do == ()
    assert both.differences
