"""The figures of a meal, and of the tray after it."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.bands import Band, exactly
from trayturn.advice.composing.draft import EATEN, SHREDS, Draft, Line, Part
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.load import Load, load_of
from trayturn.science.blend import Blend, layer_depth_m
from trayturn.science.breakdown import days_until_gone
from trayturn.science.materials import SHREDS_KG_M3
from trayturn.science.water import surplus


@dataclass(frozen=True, slots=True)
class Gone:
    """When the soft part of something is gone, in days; None where nothing breaks down at this warmth."""

    name: str
    days: Band | None


@dataclass(frozen=True, slots=True)
class Wetness:
    """The water that a meal gives off beyond what its castings hold, and what its bedding takes of it, kg."""

    surplus_kg: float
    taken_kg: Band
    tray_kg: float
    """What the tray itself takes up until it is as moist as it is to be."""

    @property
    def left_kg(self) -> float:
        """What is left for the trays below, the sump and the air."""
        return max(0.0, self.surplus_kg - self.taken_kg.mid - self.tray_kg)


@dataclass(frozen=True, slots=True)
class Report:
    """A meal in figures. Moisture is a fraction; what cannot be told is None, and `blame` says by whom."""

    meal: Blend
    after: Blend
    moisture: float | None
    c_to_n: float | None
    moisture_after: Band | None
    c_to_n_after: Band | None
    load: Load
    gone: tuple[Gone, ...]
    """The slowest to go last."""
    wetness: Wetness
    layer_m: float | None
    cover_m: float
    stand_ins: tuple[str, ...]
    """Scraps reckoned as mixed ones."""
    blame: tuple[str, ...]
    """Names without carbon or nitrogen, for which no ratio can be told."""
    unplaced: tuple[str, ...]
    """Names without a density, for which no layer can be told."""

    @property
    def total_kg(self) -> float:
        return self.meal.wet_kg


def report(draft: Draft, ground: Ground) -> Report:
    """What a draft comes to. It never raises: what is not known is None."""
    meal, scraps = ground.blend(draft), ground.blend(draft, *EATEN)
    after = ground.contents.blend.plus(*meal.parts)
    moisture_after = _moisture_after(ground, meal)
    return Report(
        meal,
        after,
        meal.moisture if meal.wet_kg > 0 else None,
        meal.c_to_n if meal.wet_kg > 0 else None,
        moisture_after,
        _ratio_after(ground, meal),
        load_of(draft, ground),
        _gone(draft, ground, moisture_after),
        wetness(draft, ground),
        layer_depth_m(scraps, ground.area_m2),
        cover_depth_m(draft, ground),
        tuple(line.name for line in draft.of(*EATEN) if line.kg > 0 and not ground.known(line)),
        tuple(dict.fromkeys((*meal.unknown("c"), *meal.unknown("n")))),
        scraps.unknown("density_kg_m3"),
    )


def _moisture_after(ground: Ground, meal: Blend) -> Band | None:
    """All water over all mass, with the tray at each end of what it may hold."""
    held = ground.contents
    ends = zip(held.wet_kg, held.moisture, strict=True)
    water = meal.wet_kg - meal.dry_kg
    found = [((wet * moist + water), wet + meal.wet_kg) for wet, moist in ends]
    if any(total <= 0 for _, total in found):
        return None
    return Band(*sorted(wet / total for wet, total in found))


def _ratio_after(ground: Ground, meal: Blend) -> Band | None:
    """All carbon over all nitrogen, with the tray's carbon at each end."""
    if meal.wet_kg > 0 and (meal.c_kg is None or meal.n_kg is None):
        return None
    carbon, nitrogen = meal.c_kg or 0.0, meal.n_kg or 0.0
    if ground.contents.wet_kg.mid <= 0:
        return exactly(carbon / nitrogen) if nitrogen else None
    held, ratio = ground.contents.blend.n_kg, ground.contents.c_to_n
    if held is None or ratio is None or held + nitrogen <= 0:
        return None
    return Band(*((one * held + carbon) / (held + nitrogen) for one in ratio))


def _gone(draft: Draft, ground: Ground, moisture: Band | None) -> tuple[Gone, ...]:
    found = [_days(line, ground, moisture.mid if moisture else 0.75) for line in ground.food(draft)]
    return tuple(sorted(found, key=lambda one: one.days.mid if one.days is not None else float("inf")))


def _days(line: Line, ground: Ground, moisture: float) -> Gone:
    row = ground.row(line)
    breakdown = row.breakdown if row is not None and row.breakdown else "medium"
    days = days_until_gone(breakdown, ground.contents.celsius, moisture)
    if days is None:
        return Gone(line.name, None)
    low, high = days
    return Gone(line.name, Band(low, (low * high) ** 0.5, high))


def wetness(draft: Draft, ground: Ground) -> Wetness:
    """The surplus of each scrap by its own moisture; the castings are kept as moist as the tray is to be."""
    food, goal, held = ground.food(draft), min(0.95, ground.goals.moisture), ground.contents
    parts = [(line.kg, ground.stuff(line).moisture or 0.0) for line in food]
    extra = sum(surplus(kg, moisture, goal) for kg, moisture in parts)
    low = high = 0.0
    for line in draft.of(*SHREDS):
        least, most, _ = ground.holds(line.name)
        low, high = low + line.kg * least, high + line.kg * most
    solids = held.wet_kg.mid * (1 - held.moisture.mid)
    tray = max(0.0, solids * goal / (1 - goal) - held.wet_kg.mid * held.moisture.mid)
    return Wetness(extra, Band(low, (low + high) / 2, high), tray)


def cover_depth_m(draft: Draft, ground: Ground) -> float:
    """How deep the cover lies, loose. Bedding without a density of its own counts as shreds."""
    return sum(line.kg / loose_kg_m3(line.name, ground) for line in draft.of(Part.COVER)) / ground.area_m2


def loose_kg_m3(name: str, ground: Ground) -> float:
    """The loose density of a bedding; that of shreds (Solomon 1993) where it has none."""
    row = ground.pantry.meant(name)
    return (row.loose_kg_m3 if row is not None else None) or SHREDS_KG_M3
