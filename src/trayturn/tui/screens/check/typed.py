"""What is typed for a reading, in whatever unit, as a value: `65 F`, `8 fl oz`, `damp`, `6 kg`."""

from __future__ import annotations

from trayturn.advice.checking.kinds import LABELS, Kind, Value
from trayturn.domain.entries import Amount, Feel
from trayturn.domain.setup import Units
from trayturn.domain.units import UnitError, parse_mass, parse_temperature, parse_volume, split_quantity

LONGEST = 200
EXAMPLES = {
    Kind.MOISTURE: ("such as 72 % or damp", "such as 72 % or damp"),
    Kind.TEMPERATURE: ("such as 18, or 65 F", "such as 65, or 18 C"),
    Kind.PH: ("such as 7", "such as 7"),
    Kind.SMELL: ("in your own words", "in your own words"),
    Kind.SUMP: ("such as 250 ml or 1 qt", "such as 1 qt or 8 fl oz"),
    Kind.STRAYS: ("none, few or many", "none, few or many"),
    Kind.WORMS: ("none, few or many", "none, few or many"),
    Kind.WEIGHT: ("such as 6 kg, tray and all", "such as 13 lb, tray and all"),
}


def example(kind: Kind, units: Units) -> str:
    """What stands in the empty line."""
    return EXAMPLES[kind][units is Units.US]


def read(kind: Kind, text: str, units: Units) -> Value | None:
    """The value of what was typed, None for nothing. Raises `UnitError` in one sentence."""
    words = text.strip()
    if not words:
        return None
    if kind is Kind.MOISTURE:
        return _feel(words) or _number(words, "%", "a percentage such as 72, or dry, damp, moist or wet")
    if kind is Kind.PH:
        return _number(words.lower().removeprefix("ph"), "", "a pH such as 7")
    if kind in (Kind.STRAYS, Kind.WORMS):
        return _amount(kind, words)
    if kind is Kind.SMELL:
        return _own_words(words)
    if kind is Kind.TEMPERATURE:
        return parse_temperature(words, units)
    if kind is Kind.SUMP:
        return 0.0 if words.lower() in ("empty", "dry", "none", "nothing") else parse_volume(words, units)
    return parse_mass(words, units)


def _feel(words: str) -> Feel | None:
    return Feel(words.lower()) if words.lower() in list(Feel) else None


def _amount(kind: Kind, words: str) -> Amount:
    if words.lower() not in list(Amount):
        raise UnitError(f"{words[:40]!r} is not one of none, few or many ({LABELS[kind].lower()}).")
    return Amount(words.lower())


def _own_words(words: str) -> str:
    if len(words) > LONGEST:
        raise UnitError(f"That is {len(words)} characters long; the most is {LONGEST}.")
    return words


def _number(words: str, sign: str, wanted: str) -> float:
    try:
        number, unit = split_quantity(words)
    except UnitError:
        unit, number = words, 0.0
    if unit not in ("", sign):
        raise UnitError(f"{words[:40]!r} is not {wanted}.")
    return number
