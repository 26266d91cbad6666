"""Remedies that serve more than one cause."""

from __future__ import annotations

from trayturn.advice.trouble.amounts import bedding_with_food, grease_band, no_food
from trayturn.advice.trouble.parts import Remedy
from trayturn.advice.trouble.sources import (
    ALABAMA,
    CDC_RODENTS,
    COLUMN,
    EULESS,
    GNATS,
    NC_MITES,
    OREGON,
    OURS,
    PRACTICE,
    RECYCLEWORKS,
)

STOP_FOOD = Remedy("Stop feeding.", OREGON, no_food)
FLUFF = Remedy("Loosen it gently with a fork each day, so that air gets in.", OREGON)
OPEN_HOLES = Remedy("See that no air hole and no drain hole is blocked.", OREGON)
DRY_PAPER = Remedy("From now on put dry paper on top every two to three weeks.", EULESS, bedding_with_food)
TAKE_MOULDY = Remedy("Take mouldy and rotten food out, and cover the rest with fresh shreds.", RECYCLEWORKS)
CHALK = Remedy(
    "Dust it with powdered calcium carbonate (95 % or more). Never slaked, caustic or hydrated lime: that "
    "kills worms. No amount is published: a light dusting, mask on.",
    RECYCLEWORKS,
)
SHELLS = Remedy("Ground egg or oyster shell keeps it from souring again.", RECYCLEWORKS)

MITES = ("white-mites", "red-mites")
LURE_MITES = Remedy(
    "Lay melon rind or potato slices on top, lift them off with the mites and drop them in water; again "
    "until few come. Damp newspaper does it too.",
    NC_MITES,
    signs=MITES,
)
SUN_MITES = Remedy("Or uncover it to the sun for some hours; less water and food.", NC_MITES, signs=MITES)
DRY_TOP = Remedy(
    "Let the surface dry and hang up sticky traps; told of potting soil, not of worm bins.",
    GNATS,
    signs=("fungus-gnats",),
)
FLY_TRAP = Remedy(
    "Set out a glass of cider vinegar or red wine with a drop of dish soap: flies go in and stay.",
    OREGON,
    signs=("fruit-flies",),
)
ANT_LEGS = Remedy(
    "Stand its legs in cans of water or mineral oil. No ant bait with arsenic.", RECYCLEWORKS, signs=("ants",)
)
ANT_BAND = Remedy(
    "A bin without legs gets a band of petroleum jelly.", RECYCLEWORKS, grease_band, signs=("ants",)
)
WET_FOR_ANTS = Remedy("Wet it: ants come where it is too dry.", COLUMN, signs=("ants",))
RODENTS = Remedy(
    "Gloves on; wet droppings with disinfectant, wipe them up and bin them. Neither sweep nor vacuum. Close "
    "gaps, and follow the pest rules of your place; a licensed pest controller helps where they stay.",
    CDC_RODENTS,
    signs=("mice",),
)
FLATWORMS = Remedy(
    "Take them out with gloves or in a bag, never cut up, and keep pets away. Ask your authority whether "
    "they are to be reported.",
    ALABAMA,
    signs=("flatworms",),
)
HAND_PICK = Remedy("Pick centipedes out with gloves on.", PRACTICE, signs=("centipedes",))
LOOK_IN_ALL = Remedy("Put strays back on fresh damp bedding.", OURS, signs=("leaving", "in-sump"))
