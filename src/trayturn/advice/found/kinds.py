"""What does not belong in a bin, kind by kind: how it is kept out, and why that matters, with the source."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from trayturn.domain.entries import Contaminant
from trayturn.domain.words import count

PRACTICE = "common practice, no source"
ULSTER = "Ulster County Resource Recovery Agency, its list of what to leave out"


@dataclass(frozen=True, slots=True)
class Remedy:
    """One kind: what one and several of it are called, what to do in a few words, and why.

    `do` is said of several that came in; `why` goes on from there. `source` is behind both.
    """

    one: str
    several: str
    do: str
    why: str
    source: str

    def counted(self, number: int) -> str:
        """`3 stickers`, `1 piece of tape`."""
        return count(number, self.one, self.several)


REMEDIES: Mapping[Contaminant, Remedy] = {
    Contaminant.STICKER: Remedy(
        "sticker",
        "stickers",
        "peel them off before feeding",
        "A fruit sticker is plastic film: it comes out of every turn as it went in.",
        PRACTICE,
    ),
    Contaminant.TAPE: Remedy(
        "piece of tape",
        "pieces of tape",
        "strip tape and labels off before shredding",
        "Shredded, tape is in a hundred pieces that nobody picks out again.",
        PRACTICE,
    ),
    Contaminant.STAPLE: Remedy(
        "staple",
        "staples",
        "pull them out before shredding",
        "They do not rot away in a turn, and they prick the hands that loosen a tray.",
        PRACTICE,
    ),
    Contaminant.COATED_PAPER: Remedy(
        "piece of coated paper",
        "pieces of coated paper",
        "leave glossy, waxed and coated paper out",
        "Tear an edge: where a film shows, it is coated. Plain brown card and newsprint do well.",
        ULSTER,
    ),
    Contaminant.PLASTIC: Remedy(
        "piece of plastic",
        "pieces of plastic",
        "take bags, nets and windows off first; no bags or ware sold as compostable either",
        "Plastic pieces lowered the survival of worms in a trial (CAST 2025, doi 10.55003/cast.2025.261603, "
        "read in the abstract).",
        ULSTER,
    ),
    Contaminant.METAL: Remedy(
        "piece of metal",
        "pieces of metal",
        "look the load over before it goes in",
        "It cuts: gloves on whenever a tray is loosened by hand.",
        PRACTICE,
    ),
    Contaminant.GLASS: Remedy(
        "piece of glass",
        "pieces of glass",
        "leave out what that source brings until it brings none",
        "It cuts: thick gloves on, and no castings with glass in them go to other people. Wash a cut with "
        "soap and water, and see a doctor about tetanus.",
        PRACTICE,
    ),
    Contaminant.TEXTILE: Remedy(
        "piece of textile",
        "pieces of textile",
        "leave textiles out, nets of tea bags too",
        "Most hold plastic fibres, which stay when the rest has rotted.",
        PRACTICE,
    ),
    Contaminant.OTHER: Remedy(
        "thing that does not belong",
        "things that do not belong",
        "look the load over before it goes in",
        "What is picked out before feeding need not be picked out of castings.",
        PRACTICE,
    ),
}


def counted(kinds: Mapping[Contaminant, int]) -> list[str]:
    """`12 stickers`, `1 piece of tape`, the most first."""
    ranked = sorted(kinds.items(), key=lambda pair: (-pair[1], pair[0]))
    return [REMEDIES[kind].counted(number) for kind, number in ranked]
