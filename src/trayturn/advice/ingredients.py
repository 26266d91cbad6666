"""The keeper's own ingredients as rows of the table."""

from __future__ import annotations

from trayturn.domain.profile import Profile
from trayturn.domain.setup import Ingredient
from trayturn.science.materials import Material


def own_rows(profile: Profile) -> tuple[Material, ...]:
    """The profile's own ingredients, as the table of ingredients takes them."""
    return tuple(_row(place, one) for place, one in enumerate(profile.ingredients, 1))


def _row(place: int, one: Ingredient) -> Material:
    return Material(
        id=f"own-{place}",
        name=one.name,
        aliases=(),
        group="own",
        role="food",
        moisture=_share(one.moisture_pct),
        n=_share(one.n_pct),
        c=_share(one.c_pct),
        density_kg_m3=one.density_kg_m3,
        breakdown=one.breakdown or "",
        salt=_share(one.salt_pct),
        guidance=one.guidance,
        reason=one.note,
        source="your own",
        sure="own",
    )


def _share(percent: float | None) -> float | None:
    return None if percent is None else percent / 100
