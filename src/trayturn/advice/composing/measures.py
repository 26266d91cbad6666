"""Amounts as a keeper says them: `500 g`, `1 lb`, `2 handfuls`, `a bowl`, `1.5 cups of coffee grounds`."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from trayturn.advice.pantry import Pantry
from trayturn.domain.entries import MeasureSet
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import UnitError, parse_mass, show_mass
from trayturn.domain.words import clean

US_CUP_L, METRIC_CUP_L = 0.236588, 0.25
"""The US cup is 8 fluid ounces (NIST Handbook 44, appendix C); elsewhere a cup is a quarter of a litre."""
HANDFUL_L, BOWL_L = 0.10, 0.50
"""Loose scraps in one hand, and in a small bowl. Our choice."""
SHREDS_HANDFUL_L = 0.50
"""Loose shreds that one hand gathers up. Our choice."""
FLUFFY_KG_M3 = 60.0
"""Lighter than this, a handful is gathered up rather than scooped. Our choice."""
BUILT_IN = ("handful", "cup", "bowl")
NUMBERS = {"a": 1.0, "an": 1.0, "one": 1.0, "half": 0.5, "two": 2.0, "three": 3.0, "four": 4.0}
COUNTED = re.compile(
    r"\s*(?P<number>\d+(?:[.,]\d+)?|[.,]\d+|½|an?|one|half(?:\s+an?)?|two|three|four)?\s*"
    r"(?P<word>[^\W\d][\w -]*?)(?:\s+of\s.*)?\s*",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Weighed:
    """What one measure of something weighs, kg, and what that rests on."""

    kg: float
    basis: str
    own: bool = False


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount as it was read, kg; `measure` is empty where it was a weight."""

    kg: float
    measure: str = ""


class Measures:
    """The words a keeper measures by, and what each weighs."""

    def __init__(self, set_by_keeper: Iterable[MeasureSet], units: Units, pantry: Pantry) -> None:
        self.units, self.pantry = units, pantry
        self._own = {(one.measure.casefold(), one.of.casefold()): one for one in set_by_keeper}

    @property
    def words(self) -> tuple[str, ...]:
        """Every measure that has a name, those of the program first."""
        return tuple(dict.fromkeys((*BUILT_IN, *(word for word, _ in self._own))))

    def weigh(self, word: str, name: str) -> Weighed | None:
        """What one of a measure weighs of a thing; None where nobody can say."""
        own = self._set(word.casefold(), name)
        if own is not None:
            of = f" of {clean(own.of, 40)}" if own.of else ""
            said = f"you set a {clean(own.measure)}{of} to {show_mass(own.kg, self.units)}"
            return Weighed(own.kg, said, own=True)
        return self._rule_of_thumb(word.casefold(), name)

    def _set(self, word: str, name: str) -> MeasureSet | None:
        row = self.pantry.meant(name)
        meant = (name, *((row.name, *row.aliases) if row is not None else ()), "")
        return next((own for of in meant if (own := self._own.get((word, of.casefold())))), None)

    def _rule_of_thumb(self, word: str, name: str) -> Weighed | None:
        """By volume and loose density: for a cup both are published, for the others the volume is ours."""
        row = self.pantry.meant(name) or self.pantry.scraps(name)[0]
        density = row.loose_kg_m3
        if density is None or word not in BUILT_IN:
            return None
        us = self.units is Units.US
        litres = {"cup": US_CUP_L if us else METRIC_CUP_L, "bowl": BOWL_L, "handful": HANDFUL_L}[word]
        if word == "handful" and density < FLUFFY_KG_M3:
            litres = SHREDS_HANDFUL_L
        size = f"{1000 * litres:g} ml"
        whose = ("US cup, NIST Handbook 44" if us else "metric cup") if word == "cup" else "our choice"
        by = row.source if row.density_kg_m3 is not None else "Solomon 1993, for its like"
        basis = f"rule of thumb: {size} ({whose}), loose at {density:g} kg/m3 ({by})"
        return Weighed(litres / 1000 * density, basis)

    def read(self, text: str, name: str, most_kg: float = 1000.0) -> Amount:
        """An amount of a thing as typed. Raises `UnitError` with what would do."""
        amount = self._counted(text, name) or Amount(parse_mass(text, self.units))
        if amount.kg > most_kg:
            example = "8 oz" if self.units is Units.US else "300 g"
            raise UnitError(
                f"{clean(text.strip(), 30)!r} comes to {show_mass(amount.kg, self.units)}, more than fits in "
                f"the tray ({show_mass(most_kg, self.units)}). Type it with its unit, such as {example}."
            )
        return amount

    def _counted(self, text: str, name: str) -> Amount | None:
        match = COUNTED.fullmatch(text)
        word = self._word(match["word"]) if match is not None else ""
        if match is None or not word:
            return None
        weighed = self.weigh(word, name)
        if weighed is None:
            raise UnitError(
                f"What a {word} of {clean(name, 40)} weighs is not known yet. "
                "Set it under more, measures; or type a weight."
            )
        return Amount(_number(match["number"]) * weighed.kg, word)

    def _word(self, typed: str) -> str:
        """The measure that is meant: `Handfuls` as handful. Empty for a unit of mass or an unknown word."""
        text = typed.strip().casefold()
        forms = (text, text.removesuffix("s"), text.removesuffix("es"), text.replace("sful", "ful"))
        return next((form for form in forms if form in self.words), "")

    def hint(self) -> str:
        """What may be typed."""
        mass = "8 oz" if self.units is Units.US else "300 g"
        return f"{mass}, 2 handfuls, a cup, half a bowl"


def _number(text: str | None) -> float:
    if text is None:
        return 1.0
    word = text.split()[0].casefold()
    if word == "½":
        return 0.5
    return NUMBERS[word] if word in NUMBERS else float(word.replace(",", "."))


def measures_of(stack: Stack, pantry: Pantry) -> Measures:
    """The measures of a bin as they stand."""
    return Measures(stack.measures, stack.setup.units, pantry)
