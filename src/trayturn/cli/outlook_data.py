"""The outlook and its score as data for scripts."""

from __future__ import annotations

from collections.abc import Sequence

from trayturn.advice.outlook.result import (
    Days,
    Fan,
    Five,
    Harvest,
    Misfit,
    Outlook,
    PastForecast,
    Plan,
    Point,
    Skill,
)
from trayturn.advice.outlook.score import worse_than_thumb
from trayturn.advice.outlook.what_if import TIMES, Compared
from trayturn.cli.as_json import Data, amount, amounts, days, moment
from trayturn.domain.stack import Stack


def of_outlook(told: Outlook, stack: Stack) -> Data:
    """All of an outlook."""
    return {
        "bin": told.key,
        "name": stack.setup.name,
        "as_of": moment(told.as_of),
        "until": moment(told.until),
        "used": told.used,
        "harvests": [_harvest(one) for one in told.harvests],
        "finishing": told.finishing,
        "finishing_kg": _five(told.finishing_kg),
        "worms_kg": _five(told.worms_kg),
        "sump_l": _five(told.sump_l),
        "moisture": {tray: _five(share) for tray, share in told.moisture.items()},
        "bottom_tray": told.bottom_tray,
        "bottom_tray_soaked_on": _days(told.bottom_tray_soaked_on),
        "sump_full_on": _days(told.sump_full_on),
        "dry_bedding_kg": amount(told.dry_bedding_kg),
        "scraps_kg_per_week": _five(told.scraps_kg_per_week),
        "rests_on": _rests(told),
        "does_not_fit": [_misfit(one) for one in told.does_not_fit],
        "narrow_most": _narrow(told),
        "plan": _plan(told.plan),
        "assumed": list(told.assumed),
        "sentences": list(told.sentences),
        "points": [_point(one) for one in told.points],
        "past": [_past(one) for one in told.past],
        "series": {name: _fan(fan) for name, fan in told.series.items()},
        "seed": told.seed,
        "draws": told.draws,
    }


def of_both(both: Compared, stack: Stack) -> Data:
    """Today's outlook, and under `what_if` the other one with what differs and what to do."""
    return of_outlook(both.today, stack) | {
        "what_if": {
            "kind": both.what.kind,
            "days": both.what.days or None,
            "celsius": both.what.celsius if both.what.kind in ("cold", "heat") else None,
            "times": both.what.factor if both.what.kind in TIMES else None,
            "differences": list(both.differences),
            "do": list(both.do),
            "outlook": of_outlook(both.then, stack),
        }
    }


def of_score(past: Sequence[PastForecast], skill: Skill, stack: Stack) -> Data:
    """Past forecasts, oldest first, and how they did."""
    return {
        "bin": stack.key,
        "name": stack.setup.name,
        "as_of": moment(stack.as_of),
        "past": [_past(one) for one in past],
        "skill": _skill(skill),
        "used": "rule of thumb" if worse_than_thumb(skill) else "model",
    }


def _five(band: Five | None) -> Data | None:
    return None if band is None else {name: amount(value) for name, value in band._asdict().items()}


def _days(band: Days | None) -> Data | None:
    """Null at an end that is not within the outlook."""
    if band is None:
        return None
    return {"early": moment(band.early), "mid": moment(band.mid), "late": moment(band.late)}


def _harvest(one: Harvest) -> Data:
    return {
        "date": moment(one.date),
        "early": moment(one.early),
        "late": moment(one.late),
        "tray": one.tray,
        "castings_kg": _five(one.castings_kg),
        "age_days": days(one.age_days),
        "moisture": _five(one.moisture),
        "hatched": _five(one.hatched),
    }


def _rests(told: Outlook) -> Data:
    rests = told.rests_on
    return {"measurements": rests.measurements, "words": rests.words, "skill": _skill(rests.skill)}


def _skill(skill: Skill) -> Data:
    return {
        "harvests": skill.harvests,
        "held": skill.held,
        "model_error": amount(skill.model_error),
        "thumb_error": amount(skill.thumb_error),
        "better": skill.better,
    }


def _misfit(one: Misfit) -> Data:
    return {
        "entry": one.entry,
        "at": moment(one.at),
        "kind": one.kind,
        "tray": one.tray,
        "value": amount(one.value),
        "expected": amount(one.expected),
        "off_sd": amount(one.off_sd),
        "left_out": one.left_out,
        "words": one.words,
    }


def _narrow(told: Outlook) -> Data | None:
    one = told.narrow_most
    if one is None:
        return None
    return {"kind": one.kind, "tray": one.tray, "narrows": amount(one.narrows), "words": one.words}


def _plan(plan: Plan | None) -> Data | None:
    if plan is None:
        return None
    away, spell = plan.away, plan.spell
    return {
        "turn_every_days": days(plan.turn_every_days),
        "trays": plan.trays,
        "scraps_kg_per_week": amount(plan.scraps_kg_per_week),
        "feed_every_days": days(plan.feed_every_days),
        "bedding_ratio": amount(plan.bedding_ratio),
        "water_ratio": amount(plan.water_ratio),
        "fresh_bedding_kg": amount(plan.fresh_bedding_kg),
        "fresh_water_kg": amount(plan.fresh_water_kg),
        "bedding": plan.bedding,
        "mix": amounts(plan.mix),
        "celsius": amount(plan.celsius),
        "worms_share": plan.worms_share,
        "away": None if away is None else {"from": moment(away[0]), "days": away[1]},
        "spell": None if spell is None else {"from": moment(spell[0]), "days": spell[1], "celsius": spell[2]},
        "rests_on": list(plan.said),
    }


def _point(one: Point) -> Data:
    return {
        "entry": one.entry,
        "at": moment(one.at),
        "kind": one.kind,
        "tray": one.tray,
        "value": amount(one.value),
        "misfit_sd": amount(one.misfit_sd),
    }


def _past(one: PastForecast) -> Data:
    return {
        "tray": one.tray,
        "made_at": moment(one.made_at),
        "target_at": moment(one.target_at),
        "castings_kg": {"p10": amount(one.p10), "p50": amount(one.p50), "p90": amount(one.p90)},
        "came_kg": amount(one.came),
        "thumb_kg": amount(one.thumb),
        "held": one.held,
    }


def _fan(fan: Fan) -> Data:
    """One value a day, to a tenth of a thousandth."""
    bands = {name: [round(value, 4) for value in getattr(fan, name)] for name in Five._fields}
    return {"days": list(fan.days), **bands}
