"""Journal entries of a turn day: what is planned, each step as it is done, and how the day ended."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from trayturn.domain.entry_base import Choice, DayOutcome, DayStep, EntryBase, Masses, Stage
from trayturn.domain.setup import TrayId

Trays = Annotated[tuple[TrayId, ...], Field(max_length=20, strict=False)]
Room = Annotated[int, Field(ge=1, le=10)]


class TurnDayBegun(EntryBase):
    """A turn day with its plan: the order the stack is to have, bottom first, and the trays to be separated.

    The trays of `separating` are in the order too where they stand on top meanwhile. `fresh` comes in with
    that bedding; `no_fresh` says that one is left out since there is no bedding for it. The tray that
    `comes_back` is filled with it once it is separated, and then is as `comes_back_as` says.
    `places_beside` and `trays_on_a_place` are the room the lifts were planned for: the day keeps to them.
    """

    title = "turn day begun"
    kind: Literal["turn_day_begun"] = "turn_day_begun"
    order: Annotated[Trays, Field(min_length=1)]
    stages: dict[TrayId, Annotated[Stage, Choice]] = Field(default_factory=dict)
    separating: Trays = ()
    fresh: TrayId | None = None
    bedding_kg: Masses = Field(default_factory=dict)
    no_fresh: bool | None = None
    comes_back: TrayId | None = None
    comes_back_as: Annotated[Stage, Choice] | None = None
    places_beside: Room | None = None
    trays_on_a_place: Room | None = None


class DayStepDone(EntryBase):
    """A step of the turn day done. `number` tells which lift of many, from 1; `skipped`: left undone.

    Moving that is skipped without a number leaves every lift undone that was not done by then; so does
    bringing a tray back.
    """

    title = "step of the turn day"
    kind: Literal["day_step_done"] = "day_step_done"
    step: Annotated[DayStep, Choice]
    tray: TrayId | None = None
    number: Annotated[int, Field(ge=1, le=999)] | None = None
    skipped: bool | None = None


class TurnDayEnded(EntryBase):
    """The turn day over: all done, or left as it stood."""

    title = "turn day ended"
    kind: Literal["turn_day_ended"] = "turn_day_ended"
    outcome: Annotated[DayOutcome, Choice] = DayOutcome.FINISHED
