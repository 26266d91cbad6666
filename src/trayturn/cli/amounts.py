"""What a keeper types on the command line, as SI: a slip is refused with the option's name in front."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from trayturn.cli.parsing import Refused
from trayturn.domain.setup import Units
from trayturn.domain.units import VOLUME, UnitError, parse_mass, parse_volume, split_quantity

Reader = Callable[[str, Units], float]


def read(reader: Reader, text: str | None, label: str, units: Units) -> float | None:
    """An amount read by one of the domain's parsers; None where nothing was typed. Raises `Refused`."""
    if text is None:
        return None
    try:
        return reader(text, units)
    except UnitError as slip:
        raise Refused(f"{label}: {slip}") from None


def mass(text: str | None, label: str, units: Units) -> float | None:
    """A mass, kg."""
    return read(parse_mass, text, label, units)


def water(text: str | None, label: str, units: Units) -> float | None:
    """Water by weight or by volume, kg. A litre counts as a kilogram."""
    return read(_parse_water, text, label, units)


def plain_number(text: str | None, label: str, sign: str = "") -> float | None:
    """A number that may carry one sign, such as the percent of `70%`."""
    return read(lambda typed, _: _parse_plain(typed, sign), text, label, Units.METRIC)


def masses(pairs: Iterable[str], label: str, units: Units) -> dict[str, float]:
    """`cabbage=500 g`, `apple=0.3 kg` as kg by name; the same name twice is added up. Raises `Refused`."""
    found: dict[str, float] = {}
    for pair in pairs:
        name, _, amount = (part.strip() for part in pair.rpartition("="))
        if not name or not amount:
            raise Refused(
                f'{label}: {pair[:40]!r} needs a name and an amount in quotes, such as "cabbage=500 g".'
            )
        found[name] = found.get(name, 0.0) + (mass(amount, f"{label}: {name[:40]}", units) or 0.0)
    return found


def _parse_water(text: str, units: Units) -> float:
    _, unit = split_quantity(text)
    return parse_volume(text, units) if unit in VOLUME else parse_mass(text, units)


def _parse_plain(text: str, sign: str) -> float:
    number, unit = split_quantity(text)
    if unit not in ("", sign):
        raise UnitError(f"{text.strip()[:40]!r} is not a plain number, such as 7.")
    return number
