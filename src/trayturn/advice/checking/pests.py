"""Small life other than the worms: harmless or to be acted on, with the reason and who says so."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.checking.history import Point
from trayturn.advice.checking.kinds import Kind
from trayturn.advice.checking.scene import Scene
from trayturn.advice.checking.verdict import Level, Verdict
from trayturn.domain.entries import Pest
from trayturn.domain.words import listed

NC_STATE = "Sherman & Bambara, NC State Extension"
TRADE = "trade pages only; no research or extension source found"
NOT_FOUND = "No source was found for what to do about them: look closely, and write down what helps."


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of one pest."""

    level: Level
    what: str
    do: str
    source: str


KNOWN = {
    Pest.WHITE_MITES: Known(
        Level.WATCH,
        "They do not prey on worms; too wet, or acid from too much food.",
        "Lure them with melon rind, potato slices or damp newspaper and throw it out; pH toward 7, drier.",
        NC_STATE,
    ),
    Pest.RED_MITES: Known(
        Level.ACT,
        "They live off worms; too wet, or acid from too much food.",
        "Lure them with melon rind, potato slices or damp newspaper and throw it out; pH toward 7, drier.",
        NC_STATE,
    ),
    Pest.GRAIN_MITES: Known(
        Level.WATCH,
        "They live on grain in damp air.",
        "Leave out dry grain, bread and meal.",
        "a grain-mite fact sheet",
    ),
    Pest.FRUIT_FLIES: Known(
        Level.ACT,
        "They breed on exposed fruit.",
        "Bury food under bedding, wash skins, freeze or microwave them 10 s; set a vinegar trap.",
        "New York City compost programme; Oregon Metro",
    ),
    Pest.FUNGUS_GNATS: Known(Level.NOTED, "Not judged.", NOT_FOUND, ""),
    Pest.POT_WORMS: Known(
        Level.WATCH,
        "Harmless; a sign of acid, starchy or wet food.",
        "Less starch, drier; bread soaked in milk lures them out.",
        TRADE,
    ),
    Pest.SPRINGTAILS: Known(
        Level.FINE, "Harmless; rich and wet, they grow fewer as it dries.", "Nothing needs doing.", TRADE
    ),
    Pest.ANTS: Known(
        Level.ACT,
        "A dry bin, or sweet food.",
        "Wet it; stand its legs in water, or band them 1 in (2.5 cm) wide with petroleum jelly.",
        "RecycleWorks San Mateo",
    ),
    Pest.SOLDIER_FLY_LARVAE: Known(
        Level.WATCH, "Harmless to worms; exposed rich food.", "Bury food under bedding.", TRADE
    ),
    Pest.FLATWORMS: Known(Level.NOTED, "Not judged.", NOT_FOUND, ""),
    Pest.CENTIPEDES: Known(Level.NOTED, "Not judged.", NOT_FOUND, ""),
    Pest.MICE: Known(
        Level.ACT,
        "Drawn by the smell of meat, fish and bones.",
        "Take those out, and leave out dairy and fat.",
        "Solomon 1993; US EPA list of what draws rodents",
    ),
}
WORDS = {Level.NOTED: "not judged", Level.FINE: "harmless", Level.WATCH: "to watch", Level.ACT: "to act on"}


def judge_pests(point: Point, scene: Scene) -> Verdict:
    """What was seen, the one that matters most first."""
    seen = point.value if isinstance(point.value, tuple) else ()
    ranked = sorted(seen, key=lambda pest: -KNOWN[pest].level)
    level = KNOWN[ranked[0]].level
    what = f"{listed(map(str, ranked)).capitalize()}: {WORDS[level]}."
    do = tuple(f"{str(pest).capitalize()}. {KNOWN[pest].what} {KNOWN[pest].do}" for pest in ranked)
    why = tuple(f"{str(pest).capitalize()}: {KNOWN[pest].source}." for pest in ranked if KNOWN[pest].source)
    return Verdict(Kind.PESTS, level, WORDS[level], what, point.at, do, why)
