"""The signs the drawing is made of, each one cell wide, and their ASCII twins."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from trayturn.advice.reading import Texture

PAINTS = {
    "ground": "what the stack stands before",
    "text": "words beside the stack",
    "muted": "quiet words: what is not known",
    "air": "the empty part of a tray or the sump",
    "wall": "tray walls and bases, the sump and its feet",
    "chosen": "the walls and the mark of the selected tray",
    "lid": "the lid",
    "sheet": "the cover sheet",
    "shreds": "dry shreds",
    "shreds-mark": "single strips among dry shreds",
    "soaked": "half-soaked shreds",
    "soaked-mark": "single strips among half-soaked shreds",
    "food": "food and bedding",
    "food-mark": "strips of bedding among food",
    "food-bit": "bits of ripe food",
    "food-leaf": "bits of leaf",
    "castings": "castings",
    "castings-mark": "the grain of castings",
    "worm": "worms",
    "worm-way": "the way worms take out of a tray being separated",
    "water": "water: the wetness mark, drops, the sump",
    "water-mark": "ripples",
    "water-text": "words on how wet a tray is",
    "plate": "the plate that carries a tray's words",
    "plate-text": "the words on it",
    "tag": "the tag that carries a tray's name",
    "tag-text": "the name on it",
    "act": "the words that ask for work: which tray to feed next",
    "act-tag": "the name tag of that tray",
    "act-tag-text": "the name on it",
}
"""Every colour of the drawing. One name serves as component class, as theme variable and in the code."""

Grain = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Glyphs:
    """One set of signs. `steps` fills a cell from nothing to full; `grain` holds (sign, paint) to scatter."""

    steps: str
    lip: tuple[str, str]
    thin: tuple[str, str]
    base: str
    lid: tuple[str, str, str, str, str, str]
    under_lid: str
    worm: str
    drop: str
    down: str
    ripple: str
    tap: tuple[str, str]
    foot: tuple[str, str]
    select: str
    feed: str
    unknown: str
    grain: Mapping[Texture, Grain]


def _grain(paint: str, signs: str) -> Grain:
    return tuple((sign, paint) for sign in signs)


BLOCKS = Glyphs(
    steps=" ▁▂▃▄▅▆▇█",
    lip=("▜", "▛"),
    thin=("▐", "▌"),
    base="▔",
    lid=("▗", "▄", "▟", "█", "▙", "▖"),
    under_lid="▀",
    worm="~",
    drop="╷",
    down="↓",
    ripple="─",
    tap=("▄", "▖"),
    foot=("▜", "▛"),
    select="▶",
    feed="◀",
    unknown="?",
    grain={
        Texture.DRY_SHREDS: _grain("shreds-mark", "╱  ╲ ─  ╱ "),
        Texture.SOAKED: _grain("soaked-mark", "╱ ░ ╲░ ─ ░"),
        Texture.FOOD: (
            _grain("food-mark", "╱   ╲  ─    ") + _grain("food-bit", "▪●") + _grain("food-leaf", "▪◖▴")
        ),
        Texture.CASTINGS: _grain("castings-mark", "·∙ :·  •· "),
        Texture.EMPTY: _grain("air", " "),
    },
)


ASCII = Glyphs(
    steps=" ...---=#",
    lip=("\\", "/"),
    thin=("|", "|"),
    base='"',
    lid=(".", "-", "[", "=", "]", "."),
    under_lid="=",
    worm="~",
    drop=",",
    down="v",
    ripple="-",
    tap=("=", ","),
    foot=("[", "]"),
    select=">",
    feed="<",
    unknown="?",
    grain={
        Texture.DRY_SHREDS: _grain("shreds-mark", "/  \\ -  / "),
        Texture.SOAKED: _grain("soaked-mark", "/ ; \\; - ;"),
        Texture.FOOD: (
            _grain("food-mark", "/  \\  -   ") + _grain("food-bit", "o*") + _grain("food-leaf", "%*")
        ),
        Texture.CASTINGS: _grain("castings-mark", ":.::.:"),
        Texture.EMPTY: _grain("air", " "),
    },
)
