"""Examples of what to type, round in the units of the bin."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from trayturn.domain.setup import Units


@dataclass(frozen=True, slots=True)
class Examples:
    """What may stand in an empty line, by what is asked. Each can be read back as it stands."""

    scraps: str
    bedding: str
    fresh_bedding: str
    supplies: str
    grit: str
    water: str
    a_litre: str
    worms: str
    full_tray: str


EXAMPLES: Mapping[Units, Examples] = {
    Units.METRIC: Examples(
        scraps="cabbage=500 g, apple=200 g",
        bedding="shredded cardboard=200 g",
        fresh_bedding="shredded cardboard=400 g, leaf mould=100 g",
        supplies="shredded cardboard=2 kg, grit=500 g",
        grit="10 g",
        water="600 g",
        a_litre="a litre is a kilogram",
        worms="250 g",
        full_tray="6 kg",
    ),
    Units.US: Examples(
        scraps="cabbage=1 lb, apple=7 oz",
        bedding="shredded cardboard=7 oz",
        fresh_bedding="shredded cardboard=14 oz, leaf mould=4 oz",
        supplies="shredded cardboard=4 lb, grit=1 lb",
        grit="0.4 oz",
        water="1.3 lb",
        a_litre="a quart is 2.1 lb",
        worms="9 oz",
        full_tray="13 lb",
    ),
}
