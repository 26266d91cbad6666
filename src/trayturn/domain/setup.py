"""How a bin is built and run: the `[bin]` and `[[trays]]` tables of a profile."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import AfterValidator, AwareDatetime, BaseModel, ConfigDict, Field, model_validator


class Model(BaseModel):
    """A frozen table of the file: unknown keys are refused so that a typing slip is never lost in silence."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, allow_inf_nan=False, defer_build=True)


class Units(StrEnum):
    """The units a keeper reads and types. Files and scripts always hold SI."""

    METRIC = "metric"
    US = "us"


class Pattern(StrEnum):
    """Which way trays travel through the stack.

    Bedding below: fresh dry bedding enters at the bottom, the oldest bedding tray goes to the top and is
    fed, the fed-out tray finishes just below it and leaves at the next turn.
    Straight up: each new tray goes on top and is fed, and the lowest leaves.
    """

    BEDDING_BELOW = "bedding_below"
    STRAIGHT_UP = "straight_up"


SPECIES = {
    "eisenia_fetida": "Eisenia fetida (tiger worm)",
    "eisenia_andrei": "Eisenia andrei (red tiger worm)",
    "dendrobaena_veneta": "Dendrobaena veneta",
    "eudrilus_eugeniae": "Eudrilus eugeniae",
    "perionyx_excavatus": "Perionyx excavatus",
    "mixed": "mixed composting worms",
}


def _known_species(text: str) -> str:
    if text not in SPECIES:
        raise ValueError(f"is not a species listed here; use one of {', '.join(SPECIES)}")
    return text


# A year such as 0206 is a slip of the finger, and the ends of the calendar break all arithmetic with times.
Moment = Annotated[
    AwareDatetime, Field(ge=datetime(1900, 1, 1, tzinfo=UTC), lt=datetime(2200, 1, 1, tzinfo=UTC))
]
TrayId = Annotated[str, Field(min_length=1, max_length=12, pattern=r"^[^\W_][\w-]*$")]
Kilograms = Annotated[float, Field(gt=0, le=1000)]
Minutes = Annotated[float, Field(gt=0, le=24 * 60)]
LongText = Annotated[str, Field(max_length=20_000)]


class BinSetup(Model):
    """The settings of one bin.

    The defaults that time the work (3 to 4 minutes of loosening, 15 of rest, about 60 days between turns,
    four to six feedings in them) are common practice, no source. `places_beside` are where trays can be put
    down beside the bin, and `trays_on_a_place` how many may stand on each other there. `stands_m` is
    how high the bin's feet stand over the floor, and `places_m` how high the places are.
    """

    name: Annotated[str, Field(min_length=1, max_length=80)]
    species: Annotated[str, AfterValidator(_known_species)] = "eisenia_fetida"
    place: Annotated[str, Field(max_length=200)] = ""
    units: Annotated[Units, Field(strict=False)] = Units.METRIC
    began: Moment | None = None
    pattern: Annotated[Pattern, Field(strict=False)] = Pattern.BEDDING_BELOW
    tray_count: Annotated[int, Field(ge=1, le=20)] = 4
    tray_area_m2: Annotated[float, Field(gt=0.005, le=4)] = 0.16
    tray_depth_m: Annotated[float, Field(gt=0.02, le=1)] = 0.15
    tray_empty_kg: Annotated[float, Field(ge=0, le=50)] = 0.9
    sump_capacity_l: Annotated[float, Field(gt=0, le=200)] = 5.0
    days_between_turns: Annotated[float, Field(gt=0, le=730)] = 60
    days_between_feedings: Annotated[float, Field(gt=0, le=365)] = 12
    days_between_checks: Annotated[float, Field(gt=0, le=365)] = 7
    loosen_minutes: Minutes = 3.5
    rest_minutes: Minutes = 15
    places_beside: Annotated[int, Field(ge=1, le=10)] = 2
    trays_on_a_place: Annotated[int, Field(ge=1, le=10)] = 2
    stands_m: Annotated[float, Field(ge=0, le=2)] = 0.0
    places_m: Annotated[float, Field(ge=0, le=2)] = 0.75

    @property
    def loosen_time(self) -> timedelta:
        return timedelta(minutes=self.loosen_minutes)

    @property
    def rest_time(self) -> timedelta:
        return timedelta(minutes=self.rest_minutes)


Percent = Annotated[float, Field(ge=0, le=100)]


class Ingredient(Model):
    """What the keeper knows of something that goes in: percent, nitrogen and carbon of dry solids."""

    name: Annotated[str, Field(min_length=1, max_length=200)]
    moisture_pct: Percent | None = None
    n_pct: Percent | None = None
    c_pct: Annotated[float, Field(ge=0, le=60)] | None = None
    salt_pct: Percent | None = None
    density_kg_m3: Annotated[float, Field(gt=0, le=5000)] | None = None
    breakdown: Literal["fast", "medium", "slow", "very slow"] | None = None
    guidance: Literal["ok", "limit", "avoid"] = "ok"
    note: LongText = ""

    @model_validator(mode="after")
    def _holds_together(self) -> Ingredient:
        if (self.n_pct or 0) + (self.c_pct or 0) > 100:
            raise ValueError("carbon and nitrogen cannot be more than all of the solids")
        return self


class Tray(Model):
    """One physical tray of the set. `empty_kg` stands in where it weighs differently from the others."""

    id: TrayId
    empty_kg: Annotated[float, Field(ge=0, le=50)] | None = None
    note: LongText = ""
