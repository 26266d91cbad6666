"""What every journal entry shares: its moment, the keeper's own words, and the choices it is made of."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, ClassVar

from pydantic import Field

from trayturn.domain.setup import Kilograms, LongText, Model, Moment

ItemName = Annotated[str, Field(min_length=1, max_length=200)]
Masses = dict[ItemName, Kilograms]
PassNumber = Annotated[int, Field(ge=1, le=999)]
Words = Annotated[str, Field(max_length=200)]
Code = Annotated[str, Field(min_length=1, max_length=80, pattern=r"^[a-z0-9][a-z0-9_:-]*$")]
"""A short name of the program's own: a rule, a sign, a thing that is due. Trays in it stay as they are."""


class Stage(StrEnum):
    """What a tray is doing. A tray that is off the stack is spare."""

    BEDDING = "bedding"
    FEEDING = "feeding"
    FINISHING = "finishing"
    SEPARATING = "separating"
    SPARE = "spare"


class Amount(StrEnum):
    """A count made at a glance, with wet gloves on."""

    NONE = "none"
    FEW = "few"
    MANY = "many"


class Pest(StrEnum):
    """Small life other than the worms, by the names keepers know it under."""

    WHITE_MITES = "white mites"
    RED_MITES = "red mites"
    GRAIN_MITES = "grain mites"
    FRUIT_FLIES = "fruit flies"
    FUNGUS_GNATS = "fungus gnats"
    POT_WORMS = "pot worms"
    SPRINGTAILS = "springtails"
    ANTS = "ants"
    SOLDIER_FLY_LARVAE = "soldier fly larvae"
    FLATWORMS = "flatworms"
    CENTIPEDES = "centipedes"
    MICE = "mice"


class Feel(StrEnum):
    """The squeeze test: crumbles, holds together, gives a drop or two, runs. Common practice, no source."""

    DRY = "dry"
    DAMP = "damp"
    MOIST = "moist"
    WET = "wet"


class Step(StrEnum):
    """The steps of a separation, in the order they are done. Loosen, rest and skim make one pass."""

    GET_READY = "get_ready"
    LOOSEN = "loosen"
    REST = "rest"
    SKIM = "skim"
    DECIDE = "decide"
    SETTLE = "settle"
    CLEAN_UP = "clean_up"


class Outcome(StrEnum):
    """How a separation ended: carried through, or the tray put back where it was."""

    FINISHED = "finished"
    PUT_BACK = "put_back"


class DayStep(StrEnum):
    """The steps of a turn day, in the order they are done."""

    LOOK = "look"
    MOVE = "move"
    LOOSEN = "loosen"
    FEED = "feed"
    SET_ON_TOP = "set_on_top"
    SEPARATE = "separate"
    BRING = "bring"
    CLOSE = "close"


class DayOutcome(StrEnum):
    """How a turn day ended."""

    FINISHED = "finished"
    LEFT = "left"


class LotStage(StrEnum):
    """What castings go through once they are out of the bin."""

    HATCHING = "hatching"
    DRYING = "drying"
    CURING = "curing"
    READY = "ready"


class Contaminant(StrEnum):
    """What comes into a bin and never becomes castings."""

    PLASTIC = "plastic"
    TAPE = "tape"
    STICKER = "sticker"
    COATED_PAPER = "coated paper"
    STAPLE = "staple"
    METAL = "metal"
    GLASS = "glass"
    TEXTILE = "textile"
    OTHER = "other"


Choice = Field(strict=False)


class EntryBase(Model):
    """What every entry has: the moment it tells of, and room for the keeper's own words."""

    title: ClassVar[str] = ""
    """What a keeper calls such an entry, in undo, in the ledger and where something is wrong with it."""

    at: Moment
    note: LongText = ""
