"""What to do with a meal at the tray, step by step: bedding, scraps, amendments, cover."""

from __future__ import annotations

from collections.abc import Iterator

from trayturn.advice.composing.draft import TURN, Draft, Part
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.report import cover_depth_m
from trayturn.advice.composing.telling import depth
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean, listed


def feeding_order(draft: Draft, ground: Ground) -> list[str]:
    """One sentence for each step there is, in the order of the work. Common practice, no source."""
    return [line for line in _steps(draft, ground) if line]


def _steps(draft: Draft, ground: Ground) -> Iterator[str]:
    yield _step(draft, ground, (Part.BEDDING,), "Bedding: lay {} in as a layer of its own.")
    scraps = "Scraps: {}. Chopped they go faster; spread them, and keep off the sides."
    yield _step(draft, ground, (Part.SCRAPS,), scraps)
    yield _step(draft, ground, (Part.AMENDMENTS, Part.GRIT, Part.WATER), "Then over them: {}.")
    deep = depth(cover_depth_m(draft, ground), ground.units)
    yield _step(draft, ground, (Part.COVER,), f"Cover: {{}}, loose, about {deep}, so that no scraps show.")


def _step(draft: Draft, ground: Ground, parts: tuple[Part, ...], words: str) -> str:
    told = [
        f"{show_mass(line.kg, ground.units)} of {clean(line.name, 60)}"
        for line in draft.of(*parts)
        if line.kg > 0
    ]
    return f"{TURN[parts[0]]}  {words.format(listed(told))}" if told else ""
