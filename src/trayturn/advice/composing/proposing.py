"""The bedding, water and grit that a meal asks for: solved for the goals of the tray, and said why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from trayturn.advice.composing.draft import EATEN, SHREDS, Draft, Line, Part
from trayturn.advice.composing.goals_missed import NEAR, missed_goals
from trayturn.advice.composing.ground import Goals, Ground
from trayturn.advice.composing.minding import COVER_M, Mind, cover_words
from trayturn.advice.composing.report import cover_depth_m, loose_kg_m3, report, wetness
from trayturn.advice.composing.steps import rounded_up
from trayturn.advice.composing.telling import percent
from trayturn.advice.reading import WEIGHED_KG_M3
from trayturn.domain.entries import Stage
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean, listed
from trayturn.science.blend import WATER, Blend, Stuff
from trayturn.science.errors import OutOfRange
from trayturn.science.goals import Goal, Unreachable, c_to_n_goal, moisture_goal, solve
from trayturn.science.water import bedding_for

USUAL = "shredded cardboard"
"""What is proposed where the bin has no bedding in stock and used none yet. Our choice."""
PINCH_KG = 0.005
"""A pinch of grit with a meal. Common practice, no source."""
SMALL_KG = 1e-6
AS_FITS = " as far as it fits"


@dataclass(frozen=True, slots=True)
class Proposal:
    """The draft with what is proposed in it, and one sentence on why. `missed` are goals out of reach, and
    `short` what is more than the stock holds."""

    draft: Draft
    why: str
    missed: tuple[Mind, ...] = ()
    short: tuple[str, ...] = ()

    @property
    def lines(self) -> tuple[Line, ...]:
        """The lines that are proposed."""
        return tuple(line for line in self.draft if line.part not in EATEN and line.kg > 0)


def propose(draft: Draft, ground: Ground) -> Proposal:
    """Bedding, cover, water and grit for the scraps of a draft, in place of those it has.

    The bedding is what the most demanding of four reasons asks for: the moisture and the C:N of the tray
    after the meal, the surplus water, and a loose cover. It is at most what still fits loosely in the tray.
    """
    bare = draft.without(Part.BEDDING, Part.COVER, Part.WATER, Part.GRIT)
    laid, reason, short = _bedding(bare, ground)
    watered = _water(laid, ground)
    done = replace(with_standing(_grit(watered, ground), ground), follows=True)
    missed = missed_goals(report(done, ground), ground.goals)
    return Proposal(done, _why(done, reason, ground), missed, short)


def beddings(ground: Ground) -> list[str]:
    """The names of the beddings to use: in stock first, the fullest first, then the last one used."""
    stock = ground.stack.supplies_kg
    kept = [name for name, kg in stock.items() if kg > SMALL_KG and is_bedding(name, ground)]
    used = [name for meal in reversed(ground.tray.meals) for name in meal.bedding_kg]
    found = sorted(kept, key=lambda name: -stock[name]) or [*used, *ground.tray.bedding_kg]
    return list(dict.fromkeys(found)) or [USUAL]


def with_standing(draft: Draft, ground: Ground) -> Draft:
    """With the lines that every meal has, at nothing where it has none: + reaches bedding, grit and cover."""
    name = beddings(ground)[0]
    every = (Line(Part.BEDDING, name), Line(Part.GRIT, str(Part.GRIT)), Line(Part.COVER, name))
    return replace(draft, lines=(*draft.lines, *(line for line in every if not draft.of(line.part))))


def is_bedding(name: str, ground: Ground) -> bool:
    """Whether a supply is one that scraps are bedded in: by the table, or because it was."""
    row = ground.pantry.meant(name)
    used = (one.bedding_kg for one in (*ground.stack.trays, *ground.stack.off_stack))
    return row.role == "bedding" if row is not None else any(name in bedding for bedding in used)


@dataclass(frozen=True, slots=True)
class _Need:
    """So much of one bedding, and the words for what asks for it. Not `fits`: no more lies loosely."""

    kg: float
    reason: str
    fits: bool = True


def _bedding(draft: Draft, ground: Ground) -> tuple[Draft, str, tuple[str, ...]]:
    """Each bedding in turn, as far as its stock goes; what is then still missing is of the first."""
    reason, fits, taken = "", True, dict[str, float]()
    names = beddings(ground)
    for name in names:
        need = _need(split_cover(draft, taken, ground), name, ground)
        reason, fits = reason or need.reason, fits and need.fits
        kg = rounded_up(need.kg, ground.units)
        held = ground.stack.supplies_kg.get(name)
        taken[name] = kg if held is None else min(kg, held)
        if taken[name] >= kg - SMALL_KG:
            return split_cover(draft, taken, ground), f"{reason}{'' if fits else AS_FITS}", ()
    over = rounded_up(_need(split_cover(draft, taken, ground), names[0], ground).kg, ground.units)
    taken[names[0]] += over
    short = f"{show_mass(over, ground.units)} more {clean(names[0], 30)} than is in stock"
    reason = f"{reason}{'' if fits else AS_FITS}"
    return split_cover(draft, taken, ground), reason, (short,) if over > SMALL_KG else ()


def _need(draft: Draft, name: str, ground: Ground) -> _Need:
    """How much more of a bedding a draft asks for, and why; no more than still fits."""
    stuff, goals = ground.stuff(Line(Part.BEDDING, name)), ground.goals
    after = ground.contents.blend.plus(*ground.blend(draft).parts)
    low, high, _ = ground.holds(name)
    soak = bedding_for(wetness(draft, ground).left_kg, (low + high) / 2)
    needs = (
        _Need(_cover_kg(draft, name, ground), f"covers the scraps by {cover_words(ground.units)}"),
        # To soak up what is still to come must not dry the tray meanwhile.
        _Need(min(soak, _drier(after, stuff, goals.moisture - NEAR)), "takes up the surplus water"),
        _Need(_drier(after, stuff, goals.moisture), f"dries the tray to {percent(goals.moisture)}"),
        _Need(_richer(after, stuff, goals), f"brings the tray to C:N {goals.c_to_n:g}"),
    )
    most, fits = max(needs, key=lambda need: need.kg), _fits_kg(draft, name, ground)
    return most if most.kg <= fits else _Need(fits, most.reason, fits=False)


def _drier(after: Blend, stuff: Stuff, goal: float) -> float:
    wet = after.wet_kg > 0 and after.moisture > goal
    return _solved(after, moisture_goal(goal), stuff) if wet else 0.0


def _richer(after: Blend, stuff: Stuff, goals: Goals) -> float:
    ratio = after.c_to_n
    return _solved(after, c_to_n_goal(goals.c_to_n), stuff) if ratio and ratio < goals.c_to_n else 0.0


def _solved(after: Blend, goal: Goal, stuff: Stuff) -> float:
    """The mass that reaches a goal; none where no mass of it does."""
    try:
        return sum(part.kg for part in solve(after, [goal], [stuff]))
    except (Unreachable, OutOfRange):
        return 0.0


def _cover_kg(draft: Draft, name: str, ground: Ground) -> float:
    """What is missing of a loose cover. Without scraps there is nothing to cover."""
    if not draft.kg(*EATEN):
        return 0.0
    missing = max(0.0, COVER_M - cover_depth_m(draft, ground))
    return missing * ground.area_m2 * loose_kg_m3(name, ground)


def _fits_kg(draft: Draft, name: str, ground: Ground) -> float:
    """What lies loosely in what is free of the tray; a cover always does."""
    tray_m3 = ground.area_m2 * ground.stack.setup.tray_depth_m
    held_m3 = ground.contents.wet_kg.mid / WEIGHED_KG_M3.get(ground.tray.stage, WEIGHED_KG_M3[Stage.FEEDING])
    laid_m3 = sum(line.kg / loose_kg_m3(line.name, ground) for line in draft.of(*SHREDS))
    return max((tray_m3 - held_m3 - laid_m3) * loose_kg_m3(name, ground), _cover_kg(draft, name, ground))


def split_cover(draft: Draft, taken: Mapping[str, float], ground: Ground) -> Draft:
    """The draft with beddings in it: first what covers the scraps, the rest below them."""
    for name, kg in taken.items():
        cover = min(kg, rounded_up(_cover_kg(draft, name, ground), ground.units))
        lines = (Line(Part.COVER, name, cover), Line(Part.BEDDING, name, kg - cover))
        draft = replace(draft, lines=(*draft.lines, *(line for line in lines if line.kg > SMALL_KG)))
    return draft


def _water(draft: Draft, ground: Ground) -> Draft:
    """Water as far as the near end of the goal and no further: what the scraps hold comes out later."""
    after, least = ground.contents.blend.plus(*ground.blend(draft).parts), ground.goals.moisture - NEAR
    if after.wet_kg <= 0 or after.moisture >= least:
        return draft
    kg = rounded_up(_solved(after, moisture_goal(least), WATER), ground.units)
    return replace(draft, lines=(*draft.lines, Line(Part.WATER, str(Part.WATER), kg)))


def _grit(draft: Draft, ground: Ground) -> Draft:
    """A pinch where the bin is given grit: it has some in stock, or none counted and used it before."""
    shells = any(ground.mineral(line) for line in draft.of(*EATEN) if line.kg > 0)
    held = ground.stack.supplies_kg.get("grit")
    used = any(tray.grit_kg for tray in (*ground.stack.trays, *ground.stack.off_stack))
    kg = min(PINCH_KG, held) if held is not None else PINCH_KG * used
    if shells or kg <= SMALL_KG or not draft.kg(*EATEN):
        return draft
    return replace(draft, lines=(*draft.lines, Line(Part.GRIT, str(Part.GRIT), kg)))


def _why(draft: Draft, reason: str, ground: Ground) -> str:
    """What is proposed and why, in one sentence."""
    units = ground.units
    shreds = draft.masses(*SHREDS)
    told = [f"{show_mass(kg, units)} of {clean(name, 30)}" for name, kg in shreds.items()]
    water, grit = draft.kg(Part.WATER), draft.kg(Part.GRIT)
    told += [f"{show_mass(water, units)} of water"] * bool(water) + ["a pinch of grit"] * bool(grit)
    if not told:
        return "Nothing needs to be added."
    return f"{listed(told)}: {reason}." if shreds else f"{listed(told)}."
