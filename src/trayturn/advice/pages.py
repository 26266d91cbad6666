"""The pages of the handbook by name, so that a warning or a reason can point at the one behind it."""

from __future__ import annotations

from enum import StrEnum


class Page(StrEnum):
    """One page of the handbook, in its order: what helps at once comes first."""

    TROUBLES = "troubles"
    FEEDING = "feeding"
    MEALS = "meals"
    SALT = "salt"
    LAYERS = "layers"
    BEDDING = "bedding"
    GRIT = "grit"
    MOISTURE = "moisture"
    SQUEEZE_TEST = "squeeze-test"
    TEMPERATURE = "temperature"
    PH = "ph"
    SMELLS = "smells"
    SUMP = "sump"
    STRAYS = "strays"
    PESTS = "pests"
    WORM_NUMBERS = "worm-numbers"
    STOCKING = "stocking"
    TURNING = "turning"
    SEPARATING = "separating"
    FOUND = "found"
    HATCHING = "hatching"
    SUPPLIES = "supplies"
    STARTING = "starting"
    SPLITTING = "splitting"
    CASTINGS = "castings"
    YIELD = "yield"
    OUTLOOK = "outlook"
    LIFTING = "lifting"
    CAUTIONS = "cautions"
    HOW_SURE = "how-sure"
