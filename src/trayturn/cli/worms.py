"""`ration`, `hatch` and `gone`: what worms can take, when cocoons hatch, when something soft is gone."""

from __future__ import annotations

from argparse import Namespace

from trayturn.cli import amounts, as_json
from trayturn.cli.layout import Page
from trayturn.cli.parsing import Refused
from trayturn.cli.table import table_of
from trayturn.clock import Clock
from trayturn.domain.setup import Units
from trayturn.domain.units import UnitError, parse_area, parse_temperature, show_mass
from trayturn.science.breakdown import days_until_gone
from trayturn.science.errors import OutOfRange
from trayturn.science.hatching import hatch as hatching
from trayturn.science.materials import NotKnown
from trayturn.science.ration import area_rule, stocking
from trayturn.science.ration import ration as rationing

Band = tuple[float, float]
DAMP = (60.0, 90.0)
"""The limits of moisture for Eisenia fetida, percent (Earthworm Ecology 2004, table 18.3, after Edwards)."""
NOT_HATCHING = "At this temperature the cocoons of this species do not hatch."


def ration(options: Namespace, clock: Clock) -> int:
    """Print what a mass of worms can take a day."""
    units = Units.US if options.us else Units.METRIC
    celsius = _celsius(options)
    area = amounts.read(parse_area, options.area, "--area", Units.METRIC)
    try:
        found = rationing(options.worms_kg, celsius)
        by_area = area_rule(area) if area is not None else None
        density = stocking(options.worms_kg, area) if area is not None else None
    except OutOfRange as slip:
        raise Refused(str(slip)) from None
    if options.json:
        data: as_json.Data = {
            "norm_kg_per_day": _band(found.norm),
            "optimum_kg_per_day": found.optimum,
            "ceiling_kg_per_day": found.ceiling,
            "why": found.why,
        }
        if density is not None:
            data |= {
                "area_rule_kg_per_week": by_area,
                "stocking_kg_per_m2": density[0],
                "stocking_against_optimum": density[1],
            }
        as_json.print_json(data)
        return 0
    page = Page(options.ascii)
    low, high = (show_mass(kg, units) for kg in found.norm)
    page.line(f"By household norm {low} to {high} a day.")
    best, most = show_mass(found.optimum, units), show_mass(found.ceiling, units)
    page.line(f"Well managed about {best}; at the most {most}.")
    if by_area is not None and density is not None:
        page.line(f"By the area rule {show_mass(by_area, units)} a week (NC State AG-473-18).")
        times = f"{density[1]:.1f} times the published best of 1.6 kg/m2"
        page.line(f"On that area alone they would stand at {times} (Ndegwa et al. 2000).")
    page.line(found.why)
    return 0


def hatch(options: Namespace, clock: Clock) -> int:
    """Print when cocoons laid today hatch."""
    try:
        found = hatching(_celsius(options), options.species)
    except OutOfRange as slip:
        raise Refused(str(slip)) from None
    if options.json:
        as_json.print_json(
            {
                "half_days": None if found is None else _band(found.half),
                "most_days": None if found is None else _band(found.most),
                "share_hatching": None if found is None or found.share is None else _band(found.share),
                "hatchlings_each": None if found is None or found.each is None else _band(found.each),
                "why": NOT_HATCHING if found is None else found.why,
            }
        )
        return 0
    page = Page(options.ascii)
    if found is None:
        page.line(NOT_HATCHING)
        return 0
    page.line(f"Half have hatched in {_days(found.half)}, 95 % in {_days(found.most)}.")
    if found.share is not None and found.each is not None:
        low, high = found.each
        worms = f"{low:g} to {high:g}" if low < high else f"{low:g}"
        page.line(f"{_share(found.share)} hatch at all, into {worms} worms each.")
    page.line(found.why)
    return 0


def gone(options: Namespace, clock: Clock) -> int:
    """Print in how many days the soft part of something is gone."""
    if not 0 <= options.moisture <= 100:
        raise Refused(f"--moisture is percent, from 0 to 100, and {options.moisture:g} is not.")
    try:
        row = table_of(options).find(" ".join(options.words))
        if not row.breakdown:
            raise Refused(f"Nothing is known of how fast {row.name} goes.")
        days = days_until_gone(row.breakdown, _celsius(options), options.moisture / 100)
    except (OutOfRange, NotKnown) as slip:
        raise Refused(str(slip)) from None
    why = (
        f"{row.name[:1].upper()}{row.name[1:]} breaks down {row.breakdown}: judgement, anchored on common "
        "practice and on rates of mixed food waste, with two published temperature corrections. "
        "Gone means that a tenth is left. Chopped small it goes faster."
    )
    if not DAMP[0] <= options.moisture <= DAMP[1]:
        why += f" Worms live at {DAMP[0]:g} to {DAMP[1]:g} % moisture (Edwards 1988): this is unsure."
    if options.json:
        told = None if days is None else _band(days)
        as_json.print_json({"ingredient": row.name, "class": row.breakdown, "days": told, "why": why})
        return 0
    page = Page(options.ascii)
    words = "does not go at this temperature and moisture" if days is None else f"is gone in {_days(days)}"
    page.line(f"The soft part of {row.name} {words}.")
    page.line(why)
    return 0


def _celsius(options: Namespace) -> float:
    """A bare number is Celsius even where the answer is in pounds, as the worms' kilograms are."""
    try:
        return parse_temperature(options.temperature)
    except UnitError as slip:
        raise Refused(f"--temperature: {slip}") from None


def _band(band: Band) -> dict[str, float]:
    return {"low": band[0], "high": band[1]}


def _days(band: Band) -> str:
    low, high = (round(day) for day in band)
    return f"about {low} days" if low == high else f"{low} to {high} days"


def _share(band: Band) -> str:
    low, high = (round(100 * share) for share in band)
    return f"About {low} %" if low == high else f"{low} to {high} %"
