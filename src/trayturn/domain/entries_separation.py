"""Journal entries of a separation, step by step."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from trayturn.domain.entries_after import Piece
from trayturn.domain.entry_base import Amount, Choice, EntryBase, Outcome, PassNumber, Step, Words
from trayturn.domain.setup import Kilograms, LongText, Minutes, Moment, TrayId

Pieces = Annotated[tuple[Piece, ...], Field(max_length=50, strict=False)]


class SeparationBegun(EntryBase):
    """The finished tray set on top of the stack, so that its worms can move down out of it."""

    title = "separation begun"
    kind: Literal["separation_begun"] = "separation_begun"
    tray: TrayId


class StepStarted(EntryBase):
    """A step of a separation begun. A timed step carries its deadline, so that no sleep or crash loses it.

    `rest_minutes` is the rest that is to follow, where the keeper chose another than the bin's own.
    """

    title = "step started"
    kind: Literal["step_started"] = "step_started"
    tray: TrayId
    step: Annotated[Step, Choice]
    pass_number: PassNumber | None = None
    ends_at: Moment | None = None
    rest_minutes: Minutes | None = None


class StepEnded(EntryBase):
    """A step of a separation done."""

    title = "step ended"
    kind: Literal["step_ended"] = "step_ended"
    tray: TrayId
    step: Annotated[Step, Choice]
    pass_number: PassNumber | None = None


class DeadlineMoved(EntryBase):
    """The timed step under way made longer or shorter."""

    title = "end of a step moved"
    kind: Literal["deadline_moved"] = "deadline_moved"
    tray: TrayId
    ends_at: Moment


class PassDone(EntryBase):
    """One loosen, rest and skim round: what came off and what was seen.

    `pieces` are those picked out in this pass; `overs` and `contaminants` are words for what is not counted.
    """

    title = "pass done"
    kind: Literal["pass_done"] = "pass_done"
    tray: TrayId
    pass_number: PassNumber
    worms_seen: Annotated[Amount, Choice]
    skimmed_kg: Kilograms | None = None
    overs: LongText = ""
    contaminants: LongText = ""
    pieces: Pieces = ()


class Settled(EntryBase):
    """Where everything went after the last pass, and what the castings weigh."""

    title = "settled"
    kind: Literal["settled"] = "settled"
    tray: TrayId
    castings_kg: Kilograms | None = None
    worms_to: Words = ""
    rest_to: Words = ""
    overs_to: Words = ""


class SeparationEnded(EntryBase):
    """The separation over: the tray is empty and spare, or back on the stack."""

    title = "separation ended"
    kind: Literal["separation_ended"] = "separation_ended"
    tray: TrayId
    outcome: Annotated[Outcome, Choice] = Outcome.FINISHED
