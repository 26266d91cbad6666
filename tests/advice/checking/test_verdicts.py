"""What each reading amounts to: its word, what to do and how much, and that worse is never told as better."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.advice.checking.scenes import checked, scene
from tests.advice.stacks import Case, cases
from tests.builders import entry, fed, moment, turned
from trayturn.advice.checking.history import checks_of
from trayturn.advice.checking.judging import FIRST, first_to_do, judge, judge_all
from trayturn.advice.checking.kinds import Kind, Value, fields_of
from trayturn.advice.checking.pests import KNOWN
from trayturn.advice.checking.scene import Scene, as_read
from trayturn.advice.checking.verdict import PAGES, Level, Verdict
from trayturn.advice.pantry import shipped_pantry
from trayturn.domain.entries import Amount, Checked, Feel, Pest
from trayturn.domain.replay import replay
from trayturn.domain.setup import Units


def verdict(kind: Kind, value: Value, *entries: Any, **setup: Any) -> Verdict:
    """What tray A's reading amounts to, after a meal of two kilograms."""
    found = judge(kind, scene(fed("A", 1, {"cabbage": 2.0}), *entries, now={kind: value}, **setup))
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("read", "word", "level"),
    [
        (59.0, "too dry", Level.ACT),
        (65.0, "on the dry side", Level.WATCH),
        (76.0, "fine", Level.FINE),
        (88.0, "on the wet side", Level.WATCH),
        (91.0, "too wet", Level.ACT),
        (Feel.DRY, "too dry", Level.ACT),
        (Feel.DAMP, "fine", Level.FINE),
        (Feel.MOIST, "fine", Level.FINE),
        (Feel.WET, "too wet", Level.ACT),
    ],
)
def test_moisture_in_a_word(read: Value, word: str, level: Level) -> None:
    found = verdict(Kind.MOISTURE, read)
    assert (found.word, found.level) == (word, level)
    assert bool(found.addition) is bool(found.do) is (word != "fine")


def test_too_dry_tells_how_much_water_and_how_much_at_once() -> None:
    found = verdict(Kind.MOISTURE, 52.0)
    assert found.what == "Too dry: 52 %; worms need 60 % at least."
    assert found.addition is not None
    assert found.addition.is_water
    low, high = found.addition.kg.low, found.addition.kg.high
    assert 0.2 < low < high < 2.0
    assert found.do[0].startswith("Add ")
    assert "of water in all, for 75 %: at most 480 ml at once" in found.do[0]
    assert any("its reading of 2026-03-31" in line for line in found.why)


def test_too_wet_tells_the_bedding_the_stock_and_when_to_feed_again() -> None:
    stock = entry("supplies_added", 2, supplies_kg={"shredded cardboard": 1.5})
    found = verdict(Kind.MOISTURE, 93.0, stock)
    assert found.addition is not None
    assert found.addition.stuff.name == "shredded cardboard"
    assert "of dry shredded cardboard in all, for 75 %" in found.do[0]
    assert "In stock: 1.5 kg of it." in found.do
    assert "look again on Tue 7 Apr, in 7 days" in found.do[-1]


def test_more_bedding_than_a_tray_holds_is_said_to_be() -> None:
    """A tray of 0.16 by 0.15 m holds 24 l, 480 g of loose shreds at 20 kg/m3 (Solomon 1993)."""
    soaked = verdict(Kind.MOISTURE, 93.0, checked(29, gross_kg=0.9 + 9.0))
    assert soaked.do[0].startswith("Mix in 160 g now, and as much again over some days: ")
    assert soaked.do[0].endswith("of dry shredded cardboard in all, for 75 %, is more than fits.")
    assert "Mix part of the tray into one with dry bedding, if there is one." in soaked.do
    little = verdict(Kind.MOISTURE, 93.0, checked(29, gross_kg=0.9 + 1.0))
    assert not any("more than fits" in line for line in little.do)


def test_of_the_whole_bin_no_amount_is_made_up() -> None:
    found = verdict(Kind.MOISTURE, 52.0, tray=None)
    assert found.addition is None
    assert "reckoned for one tray" in found.do[0]
    empty = judge(Kind.MOISTURE, scene(turned("B", 2), tray="B", now={Kind.MOISTURE: 52.0}))
    assert empty is not None
    assert "is not known" in empty.do[0]


@pytest.mark.parametrize(
    ("celsius", "word", "told"),
    [
        (1.0, "too cold", "3 °C more at least, to 4 °C"),
        (10.0, "cool", "They eat about"),
        (18.0, "fine", ""),
        (26.0, "fine", ""),
        (29.5, "warm", "thin layers"),
        (33.5, "too hot", "Cool it by 4 °C at least"),
    ],
)
def test_warmth(celsius: float, word: str, told: str) -> None:
    found = verdict(Kind.TEMPERATURE, celsius)
    assert found.word == word
    assert told in " ".join(found.do)


def test_warmth_is_told_in_the_keepers_degrees() -> None:
    found = verdict(Kind.TEMPERATURE, 33.5, units=Units.US)
    assert found.what == "Too hot: 92 °F; above the limit of 86 °F."
    assert "Cool it by 7 °F at least" in found.do[0]
    assert "at 68 °F" in verdict(Kind.TEMPERATURE, 10.0, units=Units.US).do[0]


def test_warmth_of_another_species_is_held_against_its_own_range() -> None:
    assert verdict(Kind.TEMPERATURE, 8.0, species="eudrilus_eugeniae").word == "too cold"
    assert verdict(Kind.TEMPERATURE, 8.0).word == "cool"
    assert verdict(Kind.TEMPERATURE, 31.0, species="dendrobaena_veneta").word == "warm"


def test_a_sour_bin_gets_carbonate_never_slaked_lime_and_no_made_up_amount() -> None:
    found = " ".join(verdict(Kind.PH, 4.8).do)
    assert "never slaked or hydrated lime" in found
    assert "How much is not published" in found
    assert verdict(Kind.PH, 7.0).do == ()
    assert verdict(Kind.PH, 9.0).level is Level.ACT
    assert any("our suggestion" in line for line in verdict(Kind.PH, 9.0).why)


def test_the_sump_is_emptied_by_its_own_capacity_and_pace() -> None:
    filling = (checked(9, None, sump_l=0.4), checked(19, None, sump_l=0.9))
    found = verdict(Kind.SUMP, 1.4, *filling, sump_capacity_l=5.0)
    assert found.what == "Filling: 1.4 l, 28 % of its capacity."
    assert found.do == ("Empty it at 2.5 l (half full) at the latest: at this pace in about 23 days.",)
    full = verdict(Kind.SUMP, 2.6, sump_capacity_l=5.0)
    assert (full.level, full.do[0]) == (Level.ACT, "Empty it now: 2.6 l.")
    assert verdict(Kind.SUMP, 0.0).what == "Nearly dry: empty."


def test_bad_smells_stop_the_feeding_and_point_on() -> None:
    rotten = verdict(Kind.SMELL, "rotten")
    assert rotten.do[0] == "Feed nothing for a week at least; look again on Tue 7 Apr, in 7 days."
    for smell in ("rotten", "sour", "ammonia"):
        found = verdict(Kind.SMELL, smell)
        assert found.level is Level.ACT
        assert found.do[-1].startswith("Put right leads on")
        assert found.why
    assert verdict(Kind.SMELL, "earthy").level is Level.FINE
    assert verdict(Kind.SMELL, "like [b]hay").what == "Noted in your own words: like [b]hay."


def test_ammonia_tells_the_bedding_that_brings_its_c_to_n_to_25() -> None:
    rich = fed("A", 29, {"spinach": 12.0})
    found = judge(Kind.SMELL, scene(rich, now={Kind.SMELL: "ammonia"}))
    assert found is not None
    assert found.addition is not None
    assert "for a C:N of 25" in found.do[1]
    lean = verdict(Kind.SMELL, "ammonia")
    assert lean.addition is None
    assert "has a C:N of" in lean.do[1]


def test_strays_and_worms_seen() -> None:
    assert verdict(Kind.STRAYS, Amount.NONE).level is Level.FINE
    assert "usual in a new bin" in verdict(Kind.STRAYS, Amount.FEW, day=5).what
    assert "new bin" not in verdict(Kind.STRAYS, Amount.FEW, day=300).what
    assert verdict(Kind.STRAYS, Amount.MANY).level is Level.ACT
    assert verdict(Kind.WORMS, Amount.NONE).level is Level.WATCH
    gone = verdict(Kind.WORMS, Amount.NONE, checked(9, worms="many"))
    assert gone.what == "None seen, and many were on Tue 10 Mar, 21 days ago."
    assert gone.level is Level.ACT
    waiting = judge(Kind.WORMS, scene(turned("BA", 2), tray="B", now={Kind.WORMS: Amount.NONE}))
    assert waiting is not None
    assert waiting.level is Level.FINE


@pytest.mark.parametrize("pest", Pest)
def test_every_pest_is_judged_with_its_source_or_says_that_none_was_found(pest: Pest) -> None:
    found = verdict(Kind.PESTS, (pest,))
    assert str(pest).capitalize() in found.what
    assert bool(found.why) is (KNOWN[pest].level is not Level.NOTED)
    assert ("No source was found" in found.do[0]) is (KNOWN[pest].level is Level.NOTED)


def test_the_pest_that_matters_most_stands_first() -> None:
    found = verdict(Kind.PESTS, (Pest.SPRINGTAILS, Pest.RED_MITES))
    assert found.what == "Red mites and springtails: to act on."
    assert found.do[0].startswith("Red mites. They live off worms")
    assert "trade pages only" in found.why[1]


def test_a_weight_tells_contents_change_and_the_estimate() -> None:
    before = checked(10, gross_kg=0.9 + 3.0)
    fed_since = fed("A", 12, {"apple": 0.5})
    found = judge(Kind.WEIGHT, scene(before, fed_since, now={Kind.WEIGHT: 0.9 + 3.2}))
    assert found is not None
    assert found.what.startswith("Contents 3.2 kg; the estimate was ")
    assert found.do == (
        "200 g more than on Wed 11 Mar, 20 days ago; 500 g was put in since, so 300 g has gone as gas and"
        " water.",
    )


def test_the_estimate_is_of_the_moment_of_the_weighing_and_not_of_today() -> None:
    weighed = checked(10, gross_kg=0.9 + 1.9)
    early = judge(Kind.WEIGHT, scene(weighed, day=10))
    late = judge(Kind.WEIGHT, scene(weighed, fed("A", 15, {"pumpkin": 9.0}), day=30))
    assert early is not None
    assert late is not None
    assert late.what == early.what


def test_heavier_or_lighter_than_reckoned_is_said() -> None:
    assert verdict(Kind.WEIGHT, 0.9 + 12.0).word == "heavier"
    assert verdict(Kind.WEIGHT, 0.9 + 0.5).word == "lighter"
    assert verdict(Kind.WEIGHT, 6.0, tray=None).level is Level.NOTED


@pytest.mark.parametrize("kind", [Kind.MOISTURE, Kind.TEMPERATURE, Kind.PH])
@given(st.floats(0.1, 9.0), st.floats(0, 4.9))
def test_a_higher_reading_never_stands_lower(kind: Kind, number: float, more: float) -> None:
    scaled = {Kind.MOISTURE: 7.0, Kind.TEMPERATURE: 3.0, Kind.PH: 1.0}[kind]
    low = verdict(kind, number * scaled)
    high = verdict(kind, (number + more) * scaled)
    assert low.standing is not None
    assert high.standing is not None
    assert low.standing <= high.standing


def test_what_is_not_read_is_judged_by_its_last_reading_or_not_at_all() -> None:
    found = judge_all(scene(checked(3, moisture_pct=55, smell="earthy"), now={Kind.PH: 7.0}))
    assert list(found) == [Kind.MOISTURE, Kind.PH, Kind.SMELL]
    assert found[Kind.MOISTURE].at == moment(3)


def test_what_to_do_first_is_what_kills_soonest() -> None:
    now: dict[Kind, Value] = {Kind.MOISTURE: 52.0, Kind.TEMPERATURE: 34.0, Kind.STRAYS: Amount.FEW}
    found = judge_all(scene(now=now))
    assert first_to_do(found.values()).startswith("Cool it by")
    assert first_to_do([found[Kind.STRAYS]]).startswith("Put them back")
    assert first_to_do([]) == ""
    assert set(FIRST) == set(Kind) == set(PAGES)


READINGS = st.fixed_dictionaries(
    {},
    optional={
        Kind.MOISTURE: st.floats(1, 99) | st.sampled_from(Feel),
        Kind.TEMPERATURE: st.floats(-10, 45),
        Kind.PH: st.floats(2, 12),
        Kind.SMELL: st.sampled_from(["earthy", "rotten", "sour", "ammonia", "hay"]),
        Kind.SUMP: st.floats(0, 5),
        Kind.STRAYS: st.sampled_from(Amount),
        Kind.PESTS: st.lists(st.sampled_from(Pest), min_size=1, max_size=4, unique=True).map(tuple),
        Kind.WORMS: st.sampled_from(Amount),
        Kind.WEIGHT: st.floats(0.9, 30),
    },
)


@given(cases(), READINGS)
def test_any_reading_of_any_stack_is_judged_in_whole_sentences(
    case: Case, readings: dict[Kind, Value]
) -> None:
    stack = case.stack
    for tray in (*stack.trays, None):
        at = Scene(stack, tray, checks_of(case.profile), shipped_pantry(), readings)
        for kind, found in judge_all(at).items():
            assert kind in readings
            assert all(text.strip() == text and text[-1] in ".?!" for text in (found.what, *found.do))
            assert len(found.word) <= 20
            if found.addition is not None:
                assert 0 <= found.addition.kg.low <= found.addition.kg.mid <= found.addition.kg.high


@given(cases(), READINGS.filter(bool))
def test_a_tray_as_read_is_the_tray_as_written_down(case: Case, readings: dict[Kind, Value]) -> None:
    stack = case.stack
    for tray in stack.trays:
        check = Checked(at=stack.as_of, tray=tray.id, **fields_of(readings))
        written = replay(case.profile.with_entries([check]), stack.as_of).tray(tray.id)
        assert as_read(tray, check) == written
