"""A new bin from nothing: what to soak, how many worms, and how small the first meals are."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.bands import Band
from trayturn.domain.setup import BinSetup
from trayturn.domain.stack import Stack
from trayturn.domain.units import round_mass
from trayturn.science.bodies import number_in
from trayturn.science.limits import DEEPEST_M
from trayturn.science.materials import SCRAPS_KG_M3
from trayturn.science.ration import REFERENCE_C, ration
from trayturn.science.starting import bedding_to_start, filled_m, water_to_soak, worms_to_start

USUAL_BEDDING = "shredded cardboard"
SHARES = (0.25, 0.5, 1.0)
"""The first meals against a full one. That they are small is common practice, no source; the shares are our
choice."""


@dataclass(frozen=True, slots=True)
class Meal:
    """One of the first meals: its share of a full one, and its scraps in kg with their band."""

    share: float
    kg: Band


@dataclass(frozen=True, slots=True)
class StartingPlan:
    """What a bin begins with. Masses are kg, `filled_m` how deep the first tray is filled, metres.

    The middle of a band is what is weighed out, rounded in the keeper's units. `worms_kg` are those that are
    in, those asked about, or those of the best density (`by_area`); `worms_most_kg` is how windrows are
    stocked. `number` is how many they are, None where it is not known; `layer_kg` is the most of one meal.
    """

    setup: BinSetup
    filled_m: float
    bedding_kg: Band
    water_kg: Band
    worms_kg: float
    worms_best_kg: float
    worms_most_kg: float
    by_area: bool
    number: tuple[float, float] | None
    meals: tuple[Meal, ...]
    layer_kg: float
    celsius: float
    celsius_read: bool
    ration_why: str

    @property
    def bedding(self) -> dict[str, float]:
        """The bedding of the first tray, as it is written down."""
        return {USUAL_BEDDING: self.bedding_kg.mid}


def starting_plan(stack: Stack, worms_kg: float | None = None) -> StartingPlan:
    """The plan for this bin, with the worms that are in it; `worms_kg` asks about another weight."""
    worms = worms_kg if worms_kg is not None else stack.worms_kg or None
    return plan_for(stack.setup, worms, stack.temperature_c)


def plan_for(setup: BinSetup, worms_kg: float | None = None, celsius: float | None = None) -> StartingPlan:
    """The plan for a bin of that make. Without a weight of worms it is the published best for the tray.

    Raises `OutOfRange` for a weight that no bin holds.
    """
    units, area = setup.units, setup.tray_area_m2
    low, high = bedding_to_start(area, setup.tray_depth_m)
    dry = Band(low, round_mass((low + high) / 2, units), high)
    wet = Band(water_to_soak(low), round_mass(water_to_soak(dry.mid), units), water_to_soak(high))
    best, most = worms_to_start(area)
    worms = round_mass(best, units) if worms_kg is None else worms_kg
    warmth = REFERENCE_C if celsius is None else celsius
    taken = ration(worms, warmth)
    layer_kg = DEEPEST_M * area * SCRAPS_KG_M3
    full = tuple(min(kg * setup.days_between_feedings, layer_kg) for kg in taken.norm)
    return StartingPlan(
        setup=setup,
        filled_m=filled_m(setup.tray_depth_m),
        bedding_kg=dry,
        water_kg=wet,
        worms_kg=worms,
        worms_best_kg=best,
        worms_most_kg=most,
        by_area=worms_kg is None,
        number=number_in(worms, setup.species),
        meals=tuple(Meal(share, Band(full[0], sum(full) / 2, full[1]).times(share)) for share in SHARES),
        layer_kg=layer_kg,
        celsius=warmth,
        celsius_read=celsius is not None,
        ration_why=taken.why,
    )


def next_work(stack: Stack) -> str | None:
    """What a new bin waits for: its first `tray`, its `worms`, or its first `meal`; None once it is begun."""
    if not stack.trays:
        return "tray"
    if any(tray.feedings for tray in (*stack.trays, *stack.off_stack)):
        return None
    return "worms" if stack.worms_kg is None else "meal"
