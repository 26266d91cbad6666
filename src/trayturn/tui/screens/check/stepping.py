"""Readings given with gloves on: + and - step a number, digits pick a word."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from trayturn.advice.checking.kinds import Kind, Value, said
from trayturn.advice.checking.plausible import Doubt
from trayturn.advice.checking.scene import Scene
from trayturn.advice.checking.smells import Smell
from trayturn.domain.entries import Amount, Feel
from trayturn.domain.setup import Units
from trayturn.domain.units import OUNCE_KG, QUART_L

OTHER, DRIED = "other", "a dried sample"
"""Picks that ask on: for words of one's own, and for three weights."""
PICKS: Mapping[Kind, Sequence[Value]] = {
    Kind.MOISTURE: (*Feel, DRIED),
    Kind.SMELL: (Smell.EARTHY, Smell.SOUR, Smell.ROTTEN, Smell.AMMONIA, OTHER),
    Kind.STRAYS: tuple(Amount),
    Kind.WORMS: tuple(Amount),
}
NUMBERS = {Kind.MOISTURE, Kind.TEMPERATURE, Kind.PH, Kind.SUMP, Kind.WEIGHT}
SAME, MEANT, KEEP = 1, 8, 9
"""What digits do for a number: the same as last time; of one that is doubted, what was meant perhaps, or
keep it as it is."""
FIRST = {Kind.MOISTURE: 75.0, Kind.TEMPERATURE: 18.0, Kind.PH: 7.0, Kind.SUMP: 0.0}
"""Where stepping begins when nothing was read before; a weight begins at what is reckoned."""


def step_of(kind: Kind, units: Units) -> float:
    """One step in SI: 1 point, 1 degree of the keeper's own, 0.5 pH, 0.1 l or quart, 100 g or 4 oz."""
    us = units is Units.US
    return {
        Kind.MOISTURE: 1.0,
        Kind.TEMPERATURE: 1 / 1.8 if us else 1.0,
        Kind.PH: 0.5,
        Kind.SUMP: 0.1 * QUART_L if us else 0.1,
        Kind.WEIGHT: 4 * OUNCE_KG if us else 0.1,
    }[kind]


def stepped(kind: Kind, value: Value | None, by: int, scene: Scene) -> Value | None:
    """The value one step on, on whole steps; without one it begins at the last reading."""
    if kind in PICKS and kind not in NUMBERS:
        return _next_word(kind, value, by)
    if kind not in NUMBERS:
        return value
    number = value if isinstance(value, float) else _begin(kind, scene)
    step, zero = step_of(kind, scene.units), _zero(kind, scene.units)
    steps = round((number - zero) / step) + by
    return max(0.0, zero + steps * step) if kind is not Kind.TEMPERATURE else zero + steps * step


def _zero(kind: Kind, units: Units) -> float:
    """Whole degrees Fahrenheit are counted from 0 °F."""
    return -32 / 1.8 if kind is Kind.TEMPERATURE and units is Units.US else 0.0


def _begin(kind: Kind, scene: Scene) -> float:
    past = scene.past(kind)
    if past:
        return past[-1].number
    if kind is Kind.WEIGHT and scene.tray is not None:
        reckoned = scene.reckoned(scene.stack.as_of)
        return scene.tray.empty_kg + (reckoned.wet_kg.mid if reckoned else 0.0)
    return FIRST.get(kind, 0.0)


def _next_word(kind: Kind, value: Value | None, by: int) -> Value:
    words = [word for word in PICKS[kind] if word not in (OTHER, DRIED)]
    if value not in words:
        return words[0]
    return words[max(0, min(len(words) - 1, words.index(value) + by))]


def picked(kind: Kind, digit: int, doubt: Doubt | None, scene: Scene) -> Value | None:
    """What a digit stands for in that row, None where it stands for nothing."""
    if digit == MEANT and doubt is not None and doubt.instead is not None:
        return doubt.instead
    if kind in PICKS:
        options = PICKS[kind]
        return options[digit - 1] if 1 <= digit <= len(options) else None
    past = scene.past(kind)
    return past[-1].value if digit == SAME and past and kind in NUMBERS else None


def ways(kind: Kind, doubt: Doubt | None, scene: Scene) -> str:
    """How the marked row is answered, in one line."""
    if kind is Kind.PESTS:
        return "Enter opens the list to tick"
    if kind in PICKS and doubt is None:
        words = "  ".join(f"{n} {word}" for n, word in enumerate(PICKS[kind], 1))
        return f"{words}  - + percent" if kind is Kind.MOISTURE else words
    parts = ["- + step", "Enter types"]
    past = scene.past(kind)
    if past:
        parts.append(f"{SAME} as last: {said(kind, past[-1].value, scene.units)}")
    return "  ".join([*_answers_to(kind, doubt, scene), *parts])


def _answers_to(kind: Kind, doubt: Doubt | None, scene: Scene) -> list[str]:
    """What may be said to a reading that is doubted."""
    if doubt is None:
        return []
    meant = [] if doubt.instead is None else [f"{MEANT} takes {said(kind, doubt.instead, scene.units)}"]
    return meant if doubt.impossible else [*meant, f"{KEEP} keeps it"]
