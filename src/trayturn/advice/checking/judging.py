"""Every reading of a check judged, those being taken and otherwise the latest ones."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from trayturn.advice.checking.history import Point
from trayturn.advice.checking.kinds import Kind
from trayturn.advice.checking.measured import judge_ph, judge_sump, judge_temperature
from trayturn.advice.checking.moisture import judge_moisture
from trayturn.advice.checking.pests import judge_pests
from trayturn.advice.checking.scene import Scene
from trayturn.advice.checking.seen import judge_smell, judge_strays, judge_worms
from trayturn.advice.checking.verdict import Level, Verdict
from trayturn.advice.checking.weight import judge_weight

JUDGES: Mapping[Kind, Callable[[Point, Scene], Verdict]] = {
    Kind.MOISTURE: judge_moisture,
    Kind.TEMPERATURE: judge_temperature,
    Kind.PH: judge_ph,
    Kind.SMELL: judge_smell,
    Kind.SUMP: judge_sump,
    Kind.STRAYS: judge_strays,
    Kind.PESTS: judge_pests,
    Kind.WORMS: judge_worms,
    Kind.WEIGHT: judge_weight,
}
FIRST = (
    Kind.TEMPERATURE,
    Kind.MOISTURE,
    Kind.SMELL,
    Kind.PH,
    Kind.SUMP,
    Kind.STRAYS,
    Kind.PESTS,
    Kind.WORMS,
    Kind.WEIGHT,
)
"""Which reading is seen to first where several want it: what kills soonest. Our choice."""


def judge(kind: Kind, scene: Scene) -> Verdict | None:
    """The reading being taken judged, or the latest one; None where there is none."""
    points = scene.points(kind)
    return JUDGES[kind](points[-1], scene) if points else None


def judge_all(scene: Scene) -> dict[Kind, Verdict]:
    """Every reading that there is, judged."""
    return {kind: verdict for kind in Kind if (verdict := judge(kind, scene)) is not None}


def first_to_do(verdicts: Iterable[Verdict]) -> str:
    """What to do first about these readings; empty where nothing has to be done."""
    ranked = sorted(verdicts, key=lambda one: (-one.level, FIRST.index(one.kind)))
    return ranked[0].do[0] if ranked and ranked[0].level >= Level.WATCH and ranked[0].do else ""
