"""The outlook itself: of a keeper whose truth is known, of every sample, of bins with hardly anything."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import fields, is_dataclass, replace
from datetime import timedelta
from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.advice.outlook.keepers import kept, lived, measured, truth, usual_plan
from tests.builders import a_profile, a_usual_bin, entry, fed, moment, noted, started
from tests.strategies import entries as any_entries
from tests.test_sample_profiles import NAMES, SCENARIO, sample
from trayturn.advice.outlook import Stopped, outlook
from trayturn.advice.outlook.result import Fan, Five, Outlook
from trayturn.domain.entries import Checked, Entry
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay

FEW = 80
SEEDS = range(6)


@cache
def of_keeper(seed: int, days: int = 190, weigh: bool = True) -> Outlook:
    """A keeper's outlook after three turns; what was measured comes from one set of true rates."""
    return outlook(measured(days, truth(seed), weigh), moment(days, 23), 70, usual_plan(), draws=FEW)


def next_harvest(seed: int, days: int = 190) -> float:
    """What the next harvest truly gives, kg: the same keeper's journal a turn later."""
    later = lived(kept(days + 70), days + 70, truth(seed))
    return next(float(one.kg[0]) for one in later.harvests if one.day > days)


def all_bands(told: Outlook) -> list[Five]:
    fans = [fan.at(place) for fan in told.series.values() for place in range(len(fan))]
    return [*fans, *(one.castings_kg for one in told.harvests), *told.moisture.values()]


def test_the_band_holds_the_truth_of_keepers_made_up() -> None:
    """80 % of times it should; of six at least four do with fair certainty."""
    held = 0
    for seed in SEEDS:
        band = of_keeper(seed).harvests[0].castings_kg
        held += band.p10 <= next_harvest(seed) <= band.p90
    assert held >= 4


def test_measuring_brings_the_middle_nearer_and_narrows_the_band() -> None:
    off: dict[bool, list[float]] = {True: [], False: []}
    width: dict[bool, list[float]] = {True: [], False: []}
    for seed in SEEDS:
        for told, known in (
            (of_keeper(seed), True),
            (outlook(kept(190), moment(190, 23), 70, usual_plan(), draws=FEW), False),
        ):
            band = told.harvests[0].castings_kg
            off[known].append(abs(band.p50 / next_harvest(seed) - 1))
            width[known].append((band.p90 - band.p10) / band.p50)
    assert sum(off[True]) < 0.6 * sum(off[False])
    assert sum(width[True]) < 0.6 * sum(width[False])


def test_it_says_what_it_rests_on() -> None:
    told, bare = of_keeper(0), outlook(kept(190), moment(190, 23), 70, draws=FEW)
    assert told.rests_on.measurements == len(told.points) == 8
    assert "rests on 8 measurements of yours" in told.rests_on.words
    assert (bare.rests_on.measurements, bare.used) == (0, "model")
    assert "rule of thumb" in bare.rests_on.words
    assert all(one.misfit_sd is not None and abs(one.misfit_sd) < 3 for one in told.points)
    assert told.does_not_fit == ()


def test_an_entry_that_contradicts_the_others_is_named() -> None:
    """4.9 kg of contents typed as 49 kg."""
    profile = measured(190, truth(0))
    place, check = next(
        (place, one)
        for place, one in enumerate(profile.journal)
        if isinstance(one, Checked) and one.gross_kg is not None
    )
    slip = check.model_copy(update={"gross_kg": 10 * (check.gross_kg or 0)})
    wrong = replace(profile, journal=(*profile.journal[:place], slip, *profile.journal[place + 1 :]))
    told = outlook(wrong, moment(190, 23), 70, usual_plan(), draws=FEW)
    worst = told.does_not_fit[0]
    assert (worst.entry, worst.kind, worst.left_out) == (place + 1, "tray", True)
    assert worst.off_sd > 3
    assert worst.value > 5 * worst.expected
    assert any(f"Look at entry {place + 1}" in said for said in told.sentences)
    right = of_keeper(0).harvests[0].castings_kg.p50
    assert told.harvests[0].castings_kg.p50 == pytest.approx(right, rel=0.15), "it pulled nothing"


def test_the_measurement_that_narrows_most_does() -> None:
    """Made and written down, the band of that harvest is narrower by about as much as was said."""
    profile, days = kept(100), 100
    before = outlook(profile, moment(days), 90, usual_plan(), draws=400)
    best = before.narrow_most
    assert best is not None
    assert (best.kind, best.tray is not None) == ("tray", True)
    kg = lived(profile, days, truth(1)).series["tray_kg"][-1]
    row = lived(profile, days, truth(1)).trays.index(best.tray or "")
    gross = float(kg[row, 0]) + profile.empty_kg(best.tray or "")
    weighed = entry("checked", days, tray=best.tray, gross_kg=round(gross, 2))
    after = outlook(profile.with_entries([weighed]), moment(days), 90, usual_plan(), draws=400)

    def width(told: Outlook) -> float:
        band = told.harvests[0].castings_kg
        return (band.p90 - band.p10) / band.p50

    assert 1 - width(after) / width(before) == pytest.approx(best.narrows, abs=0.15)


@pytest.mark.parametrize("name", NAMES)
def test_every_sample_has_an_outlook(name: str) -> None:
    told = outlook(sample(name), SCENARIO, draws=FEW)
    stack = replay(sample(name), SCENARIO)
    assert told.harvests
    assert told.harvests[0].date < told.until
    assert 0.3 < told.harvests[0].castings_kg.p50 < 12
    assert set(told.moisture) == {tray.id for tray in stack.trays}
    assert told.worms_kg is not None
    assert told.sentences
    assert all("nan" not in said for said in told.sentences)


@pytest.mark.parametrize("name", NAMES)
def test_bands_are_in_order_and_nothing_is_below_nothing(name: str) -> None:
    for band in all_bands(outlook(sample(name), SCENARIO, draws=FEW)):
        assert list(band) == sorted(band)
        assert band.p10 >= 0


def test_fans_run_from_the_past_through_today() -> None:
    told = of_keeper(0)
    assert set(told.series) == {"castings", "worms", "sump", "moisture:A", "moisture:B", "moisture:C"}
    worms = told.series["worms"]
    assert worms.days == tuple(float(day) for day in range(-180, 71))
    assert told.worms_kg == worms.at(180)
    castings, first = told.series["castings"], told.harvests[0]
    assert castings.days[-1] == (first.date.date() - told.as_of.date()).days - 1
    assert castings.p50[-1] == pytest.approx(first.castings_kg.p50, rel=0.05)
    for name, fan in told.series.items():
        assert list(fan.days) == sorted(set(fan.days)), name
        assert len(fan) == len(fan.p10) == len(fan.p90)


def test_nothing_in_it_is_an_array() -> None:
    def walk(thing: object) -> None:
        assert type(thing).__module__.partition(".")[0] != "numpy", thing
        if is_dataclass(thing):
            for field in fields(thing):
                walk(getattr(thing, field.name))
        elif isinstance(thing, tuple):
            for one in thing[:3]:
                walk(one)
        elif isinstance(thing, dict):
            for one in thing.values():
                walk(one)

    walk(outlook(sample("school"), SCENARIO, draws=FEW))


def fresh(profile: Profile) -> Profile:
    """The same bin for the program, which remembers nothing of it: a spelling of its place differs."""
    return replace(profile, bin=profile.bin.model_copy(update={"place": profile.bin.place + " "}))


def test_the_same_seed_gives_the_same_and_another_does_not() -> None:
    one = of_keeper(1)
    profile, now = measured(190, truth(1)), moment(190, 23)
    assert outlook(profile, now, 70, usual_plan(), draws=FEW) is not None
    assert outlook(fresh(profile), now, 70, usual_plan(), draws=FEW) == one
    assert outlook(profile, now, 70, usual_plan(), seed=2, draws=FEW).harvests != one.harvests


def test_it_is_the_same_at_any_hour_of_a_day() -> None:
    profile = kept(100)
    early, late = (
        outlook(fresh(profile) if hour > 12 else profile, moment(100, hour), 60, usual_plan(), draws=FEW)
        for hour in (13, 23)
    )
    assert replace(late, as_of=early.as_of) == early


@pytest.mark.parametrize(
    "more", [noted("first frost", 99), fed("A", 500), entry("checked", 500, temperature_c=2.0)]
)
def test_a_note_or_what_lies_far_ahead_changes_nothing(more: Entry) -> None:
    profile = kept(100)
    one = outlook(profile, moment(100), 60, usual_plan(), draws=FEW)
    other = outlook(fresh(profile.with_entries([more])), moment(100), 60, usual_plan(), draws=FEW)
    assert other == one


def test_a_bin_without_a_tray_says_so() -> None:
    told = outlook(a_profile(), moment(0))
    assert told.harvests == ()
    assert told.worms_kg is None
    assert "No tray is on the stack" in told.sentences[0]
    assert "first tray" in told.sentences[1]


def test_a_bin_never_fed_goes_by_common_practice() -> None:
    told = outlook(a_profile(started("A", 0), started("B", 0)), moment(3), draws=FEW)
    assert told.scraps_kg_per_week is None
    assert told.plan is not None
    assert any("no meal is written down yet" in said for said in told.plan.said)
    assert told.sentences


def test_a_harvest_that_is_far_off_is_said_to_be() -> None:
    told = outlook(a_profile(*a_usual_bin()), moment(62), 20, draws=FEW)
    assert told.harvests == ()
    assert told.sentences[0].startswith("No harvest falls into the time up to")


def test_what_goes_in_comes_out_as_castings_or_is_still_there() -> None:
    """Castings solids are at most 95 % of the solids that went in."""
    told = of_keeper(0)
    solids_kg = 0.8 * 190 / 7 * 0.15 + 9 * 0.5
    kg = sum(one.value for one in told.points if one.kind == "castings")
    assert 0 < kg * 0.3 < solids_kg


def test_a_wet_plan_fills_the_sump_and_bedding_prevents_it() -> None:
    plan = usual_plan(bedding_ratio=0.0, fresh_bedding_kg=0.02, scraps_kg_per_week=3.0)
    told = outlook(kept(100), moment(100), 180, plan, draws=FEW)
    assert told.sump_full_on is not None
    assert told.sump_full_on.mid is not None
    assert told.dry_bedding_kg
    more = replace(plan, bedding_ratio=told.dry_bedding_kg / (3.0 * 180 / 7))
    dry = outlook(kept(100), moment(100), 180, more, draws=FEW)
    assert dry.sump_full_on is None or dry.sump_full_on.mid is None
    assert dry.dry_bedding_kg == 0


def test_the_sump_stands_where_it_was_read() -> None:
    profile = kept(100).with_entries([entry("checked", moment(100, 9), sump_l=1.3)])
    told = outlook(profile, moment(100, 23), 60, usual_plan(), draws=FEW)
    assert told.sump_l == pytest.approx((1.3,) * 5)


def test_progress_is_told_and_it_can_be_stopped() -> None:
    profile = replace(kept(100), key="other")
    told: list[tuple[int, int]] = []
    outlook(
        fresh(profile), moment(100), 60, seed=7, draws=30, progress=lambda done, of: told.append((done, of))
    )
    assert told == sorted(told)
    assert told[-1][0] == told[-1][1]
    with pytest.raises(Stopped):
        outlook(fresh(profile), moment(100), 60, seed=8, draws=30, cancel=lambda: True)


def near(one: Entry, day: float) -> Entry:
    return one.model_copy(update={"at": moment(0) + timedelta(days=day)})


@settings(max_examples=15, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.tuples(any_entries(), st.floats(0, 150)), max_size=12))
def test_any_journal_has_an_outlook(journal: list[tuple[Entry, float]]) -> None:
    profile = a_profile(*(near(one, day) for one, day in journal), trays="")
    told = outlook(profile, moment(160), 10, draws=20)
    assert told.sentences
    for band in all_bands(told):
        assert list(band) == sorted(band)


def check_import(code: str) -> int:
    return subprocess.run([sys.executable, "-c", code], check=False).returncode


@pytest.mark.parametrize("module", ["making", "what_if", "score", "result"])
def test_asking_costs_no_numpy_before_there_is_something_to_run(module: str) -> None:
    code = f"import sys, trayturn.advice.outlook.{module}; sys.exit('numpy' in sys.modules)"
    assert check_import(code) == 0


def test_a_fan_gives_its_bands() -> None:
    fan = Fan((0.0, 1.0), (1.0, 2.0), (2.0, 3.0), (3.0, 4.0), (4.0, 5.0), (5.0, 6.0))
    assert (len(fan), fan.at(1)) == (2, Five(2.0, 3.0, 4.0, 5.0, 6.0))
    assert fan.at(1).band == (2.0, 4.0, 6.0)
