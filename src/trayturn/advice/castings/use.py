"""Castings in a mix: how much is usual, when that is too much, and what so many litres of mix take."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

from trayturn.advice.bands import Band
from trayturn.domain.setup import Units
from trayturn.domain.units import POUND_KG, QUART_L, two_figures

USUAL_PCT = (10.0, 20.0)
"""By volume; raised growth of marigold and tomato (Atiyeh et al. 2000, Pedobiologia 44:579-590)."""
WARN_PCT, MOST_PCT = 30.0, 50.0
"""Above the first we warn; above the second is more than half, for which air in the mix is the ceiling (Mota
et al.). That 30 is where we begin to warn is our choice, between trials that disagree."""
HARMED = "Simsek Ersahin et al. 2017"
"""Turkish Journal of Agriculture - Food Science and Technology; the abstract was read."""
KG_L = Band(0.7, 0.8, 0.9)
"""kg in a litre of castings at 15 to 25 % moisture: 0.7 to 0.9 g/cm3, which pages repeat from India's
Fertiliser (Control) Order 1985 for saleable ones; the gazette was not read.
For moister ones none was found."""


class Verdict(IntEnum):
    """What is to be said of a share."""

    FINE = 0
    MUCH = 1
    TOO_MUCH = 2
    REFUSED = 3


@dataclass(frozen=True, slots=True)
class Share:
    """A share of a mix judged: what is said, and where that is from."""

    verdict: Verdict
    words: str


def judge(percent: float) -> Share:
    """A share of castings in a mix by volume, percent."""
    if percent <= USUAL_PCT[1]:
        return Share(Verdict.FINE, "10 to 20 % by volume is usual (Atiyeh et al. 2000).")
    if percent <= WARN_PCT:
        return Share(
            Verdict.MUCH,
            f"Above 20 % their salts harmed tomato seedlings in one trial ({HARMED}); in another tomato "
            "yielded best at 60 to 80 % (Truong & Wang 2015).",
        )
    if percent <= MOST_PCT:
        return Share(
            Verdict.TOO_MUCH,
            f"{percent:.0f} % is more than is advised: above 20 % their salts harmed tomato seedlings in one "
            f"trial ({HARMED}), though 60 to 80 % yielded best in another (Truong & Wang 2015). "
            "Try it on one pot.",
        )
    return Share(
        Verdict.REFUSED,
        f"{percent:.0f} % leaves too little air in the mix: at most half, and never alone (Mota et al.).",
    )


def density_words(units: Units) -> str:
    """What the mass rests on, as it is said."""
    unit, name = (POUND_KG / QUART_L, "lb a quart") if units is Units.US else (1.0, "kg a litre")
    low, high = (f"{two_figures(end / unit):g}" for end in (KG_L.low, KG_L.high))
    return f"By {low} to {high} {name}, as of castings at 15 to 25 % moisture; weigh some of yours."


def minded(percent: float | None) -> str:
    """What a keeper should mind about that share; empty for a usual one, or for none."""
    told = judge(percent) if percent is not None else None
    return told.words if told is not None and told.verdict is not Verdict.FINE else ""


def castings_for(litres: float, percent: float) -> tuple[float, Band]:
    """Litres and kg of castings for so many litres of mix at that share."""
    volume = litres * percent / 100
    return volume, KG_L.times(volume)
