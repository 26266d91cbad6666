"""Past forecasts against what came, and the rule of thumb."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta
from functools import cache

import pytest

from tests.advice.outlook.keepers import measured, truth, usual_plan
from tests.builders import a_profile, a_usual_bin, entry, moment
from tests.test_sample_profiles import SCENARIO, sample
from trayturn.advice.ledger.books import ledger_of
from trayturn.advice.outlook import outlook
from trayturn.advice.outlook.history import history_of
from trayturn.advice.outlook.result import PastForecast, Skill
from trayturn.advice.outlook.score import (
    forecast_of,
    forecasts,
    log_error,
    past_forecasts,
    skill_of,
    thumb_errors,
    weighed_lives,
    worse_than_thumb,
)
from trayturn.advice.outlook.thumb import WIDTH, thumb_band, thumb_of, width_of
from trayturn.advice.pantry import pantry_of
from trayturn.domain.entries import Settled
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay

DAYS, DRAWS = 310, 60
NOW = moment(DAYS, 23)


@cache
def keeper(seed: int = 3) -> Profile:
    """Five turns, four harvests, all measured."""
    return measured(DAYS, truth(seed))


@cache
def past(seed: int = 3) -> tuple[PastForecast, ...]:
    return past_forecasts(keeper(seed), history_of(keeper(seed), NOW), draws=DRAWS)


def made(p10: float, p50: float, p90: float, came: float | None, thumb: float) -> PastForecast:
    return PastForecast(moment(0), moment(60), "A", p10, p50, p90, came, thumb)


def test_every_weighed_separation_is_found_with_its_finishing_stage() -> None:
    found = weighed_lives(keeper(), NOW)
    assert [one.tray for one in found] == ["A", "B", "C", "A"]
    for one in found:
        stage = replay(keeper(), one.finishing_at).tray(one.tray)
        assert stage is not None
        assert (str(stage.stage), stage.stage_since) == ("finishing", one.finishing_at)
        assert timedelta(days=59) < one.settled_at - one.finishing_at < timedelta(days=62)
    unweighed = a_profile(
        *a_usual_bin(), entry("separation_begun", 80, tray="A"), entry("settled", 81, tray="A")
    )
    assert weighed_lives(unweighed, moment(90)) == ()


def test_a_past_forecast_knows_only_what_was_known() -> None:
    """Whatever is written down after the tray began to finish changes nothing."""
    first = past()[0]
    cut = tuple(one for one in keeper().journal if one.at <= first.target_at)
    mangled = tuple(
        one
        if one.at <= first.made_at
        else one.model_copy(update={"castings_kg": 30.0})
        if isinstance(one, Settled)
        else one
        for one in cut
        if one.at <= first.made_at or one.kind in ("separation_begun", "settled", "separation_ended")
    )
    other = replace(keeper(), journal=mangled)
    (again, *_) = past_forecasts(other, history_of(other, NOW), draws=DRAWS)
    assert (again.p10, again.p50, again.p90, again.thumb) == (first.p10, first.p50, first.p90, first.thumb)
    assert again.came == 30.0


def test_with_harvests_weighed_the_forecasts_come_nearer() -> None:
    """The first forecast knew no harvest, the last three."""
    off: dict[int, list[float]] = {0: [], 3: []}
    for seed in range(3, 8):
        for place in off:
            one = past(seed)[place]
            off[place].append(abs(log_error(one.p50, one.came) or 0.0))
    assert sum(off[3]) < sum(off[0])


def test_errors_are_logarithms() -> None:
    assert log_error(2.0, 1.0) == pytest.approx(math.log(2))
    assert log_error(0.5, 1.0) == pytest.approx(-math.log(2))
    assert log_error(1.0, None) is None


def test_the_skill_is_counted() -> None:
    skill = skill_of(
        [made(3, 4, 5, 4.4, 4.0), made(3, 4, 5, 6.0, 6.0), made(3, 4, 5, None, 4.0), made(3, 4, 5, 3.0, 3.0)]
    )
    assert (skill.harvests, skill.held) == (3, 2)
    assert skill.model_error == pytest.approx((math.log(1.1) + math.log(1.5) + math.log(4 / 3)) / 3)
    assert skill.thumb_error == pytest.approx(math.log(1.1) / 3)
    assert skill.better is False


@pytest.mark.parametrize(
    ("skill", "worse"),
    [
        (Skill(3, 2, 0.2, 0.1), True),
        (Skill(3, 2, 0.1, 0.1), False),
        (Skill(2, 2, 0.2, 0.1), False),
        (Skill(0, 0, None, None), False),
    ],
)
def test_from_three_harvests_on_the_better_one_is_used(skill: Skill, worse: bool) -> None:
    assert worse_than_thumb(skill) is worse


def test_the_rule_of_thumb() -> None:
    """Half of 2 kg of solids as castings of 70 % water: 3.33 kg. 80 % of normal lies within 1.2816 sd."""
    assert thumb_of(2.0) == pytest.approx(10 / 3)
    assert width_of([]) == width_of([0.1, -0.1]) == WIDTH
    assert width_of([0.5, -0.7]) == pytest.approx(math.sqrt((0.25 + 0.49) / 2))
    band = thumb_band(4.0, 0.5)
    assert (band.p50, band.p90 / band.p50) == pytest.approx((4.0, math.exp(0.5 * 1.2816)))
    assert band.p10 * band.p90 == pytest.approx(16.0)


def thumb_was_right() -> Profile:
    """The same keeper, whose castings came as the rule of thumb said, and not as the model did."""
    exact = {one.target_at: one.thumb * 1.9 for one in past()}
    journal = tuple(
        one.model_copy(update={"castings_kg": exact[one.at]}) if one.at in exact else one
        for one in keeper().journal
        if not (one.kind == "checked" and getattr(one, "gross_kg", None))
    )
    return replace(keeper(), journal=journal)


def test_a_model_that_was_worse_gives_way_to_the_rule_of_thumb(monkeypatch: pytest.MonkeyPatch) -> None:
    """That the model was further off is taken for granted here: what then stands in the outlook."""
    worse = tuple(replace(one, thumb=one.came or 0.0, p50=2 * (one.came or 0.0)) for one in past())
    monkeypatch.setattr("trayturn.advice.outlook.making.past_forecasts", lambda *args, **more: worse)
    told = outlook(keeper(), NOW, 70, usual_plan(), seed=9, draws=DRAWS)
    assert told.used == "rule of thumb"
    (first, *_) = told.harvests
    assert (first.moisture, first.hatched) == (None, None)
    assert told.finishing_kg is None
    assert "castings" not in told.series
    assert first.castings_kg.p90 / first.castings_kg.p50 == pytest.approx(math.exp(WIDTH * 1.2816))
    assert any("further off than the rule of thumb" in said for said in told.sentences)
    assert "0 %" in next(said for said in told.sentences if "further off" in said)


def test_the_model_learns_of_castings_twice_as_heavy() -> None:
    told = past_forecasts(thumb_was_right(), history_of(thumb_was_right(), NOW), draws=DRAWS)
    assert told[-1].p50 > 1.3 * past()[-1].p50
    assert len(thumb_errors(told)) == len(told)


def test_the_outlook_tells_how_its_forecasts_did() -> None:
    told = outlook(sample("stairwell"), SCENARIO, draws=DRAWS)
    assert told.rests_on.skill.harvests == len(told.past) == 5
    assert told.rests_on.skill == skill_of(told.past)
    assert any("past forecast" in said for said in told.sentences)


def test_a_ledger_can_ask_what_was_forecast_of_a_life() -> None:
    profile = sample("workshop")
    by_life = forecasts(profile, replay(profile, SCENARIO))
    assert [tray for tray, _ in by_life] == ["A", "B"]
    started = replay(profile, SCENARIO - timedelta(days=130)).tray("A")
    assert started is not None
    band = by_life["A", started.started_at]
    assert band.low < band.mid < band.high
    ledger = ledger_of(replay(profile, SCENARIO), pantry_of(profile), by_life)
    assert [turn.forecast_kg for turn in ledger.turns] == list(by_life.values())[::-1]
    emptied = next(one.at for one in profile.journal if isinstance(one, Settled))
    assert forecast_of(profile, "A", emptied) == band
    assert forecast_of(profile, "A", emptied - timedelta(days=1)) is None
