"""What published limits say of a mix: warnings with what to do and their source."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.science.blend import Blend, layer_depth_m

EDWARDS = "Earthworm Ecology, 2nd ed. 2004, table 18.3, after Edwards 1988"
DRIEST, WETTEST = 0.60, 0.90
"""The limits of moisture for Eisenia fetida (Edwards 1988)."""
SALTIEST = 0.005
"""Salt of the fresh waste above which worms die (Edwards 1988; Kaplan et al. 1980)."""
LEAST_C_TO_N, BEST_C_TO_N = 20.0, 25.0
"""25 was the best of the ratios tried (Ndegwa & Thompson 2000); to warn from 20 down is our choice."""
DEEPEST_M = 0.04
"""A layer of feed is 2.5 to 3.8 cm where it is not to heat (Sherman, Ways with Worm Farming)."""


@dataclass(frozen=True, slots=True)
class Caution:
    """One warning: its code, what is wrong and what to do, and where the limit comes from."""

    code: str
    what: str
    source: str


def warnings(blend: Blend, area_m2: float | None = None) -> list[Caution]:
    """What the published limits say of this mix; with an area, of its layer too."""
    found = [_moisture(blend), _ratio(blend), _salt(blend)]
    if area_m2 is not None:
        found.append(_layer(blend, area_m2))
    return [one for one in found if one is not None]


def _moisture(blend: Blend) -> Caution | None:
    if blend.moisture < DRIEST:
        return Caution(
            "dry",
            f"Drier than worms can live in ({100 * blend.moisture:.0f} %; they need 60 % or more).",
            EDWARDS,
        )
    if blend.moisture > WETTEST:
        return Caution(
            "wet", f"Wetter than worms can live in ({100 * blend.moisture:.0f} %; 90 % is the most).", EDWARDS
        )
    return None


def _ratio(blend: Blend) -> Caution | None:
    if blend.c_to_n is None or blend.c_to_n >= LEAST_C_TO_N:
        return None
    what = f"Rich in nitrogen (C:N {blend.c_to_n:.0f}): it may give off ammonia. Add dry bedding."
    return Caution("ammonia", what, "Ndegwa & Thompson 2000: C:N 25 was best; the limit of 20 is our choice")


def _salt(blend: Blend) -> Caution | None:
    if blend.salt is None or blend.salt <= SALTIEST:
        return None
    what = f"Salty ({100 * blend.salt:.1f} % of the fresh mass): worms die above 0.5 %. Leave that part out."
    return Caution("salt", what, f"{EDWARDS}; Kaplan et al. 1980")


def _layer(blend: Blend, area_m2: float) -> Caution | None:
    depth = layer_depth_m(blend, area_m2)
    if depth is None or depth <= DEEPEST_M:
        return None
    what = f"A layer of about {100 * depth:.0f} cm may heat. Spread it, or feed it in turns."
    return Caution("heating", what, "Sherman, Ways with Worm Farming: feed in layers of 2.5 to 3.8 cm")
