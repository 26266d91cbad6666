"""Causes to do with water, air and bedding."""

from __future__ import annotations

from trayturn.advice.pages import Page
from trayturn.advice.trouble import remedies as r
from trayturn.advice.trouble.amounts import bedding_with_food, deepest_bed, dry_bedding, no_food, water
from trayturn.advice.trouble.asks_mix import BEDDING_LATE, WATER_LEFT_OVER
from trayturn.advice.trouble.asks_readings import READS_DRY, READS_WET, SUMP_FILLS
from trayturn.advice.trouble.parts import FAIR, SLIGHT, STRONG, Asks, Cause, Expect, Remedy, Speaks
from trayturn.advice.trouble.sources import (
    BULKING,
    COLUMN,
    EDWARDS,
    EULESS,
    GNATS,
    KAPLAN,
    NC_MITES,
    OREGON,
    OURS,
    PRACTICE,
    RECYCLEWORKS,
    SREENIVASAN,
    TRADE,
)

TOO_WET = Cause(
    "too-wet",
    "Too wet",
    "Water fills the gaps that air comes in by.",
    Page.MOISTURE,
    speaks=(
        Speaks("drips", STRONG, EULESS),
        Speaks("sump-full", STRONG, OREGON),
        Speaks("leaving", STRONG, RECYCLEWORKS),
        Speaks("smell-rotten", FAIR, OREGON),
        Speaks("white-mites", FAIR, NC_MITES),
        Speaks("red-mites", FAIR, NC_MITES),
        Speaks("in-sump", FAIR, PRACTICE),
        Speaks("fungus-gnats", FAIR, GNATS),
        Speaks("pot-worms", SLIGHT, TRADE),
        Speaks("springtails", FAIR, TRADE),
        Speaks("dead", SLIGHT, EDWARDS),
        Speaks("dry", STRONG, OURS, against=True),
    ),
    asks=(
        Asks(READS_WET, STRONG, STRONG),
        Asks(SUMP_FILLS, STRONG, SLIGHT),
        Asks(WATER_LEFT_OVER, SLIGHT, SLIGHT),
    ),
    remedies=(
        Remedy("Mix torn dry paper or card in, from top to bottom.", EULESS, dry_bedding),
        Remedy("Hold food back meanwhile: most of it is water.", EULESS, no_food),
        Remedy("Leave the lid open for a while each day.", EULESS),
        r.OPEN_HOLES,
        r.DRY_PAPER,
        r.LURE_MITES,
        r.SUN_MITES,
        r.DRY_TOP,
        r.LOOK_IN_ALL,
    ),
    expect=Expect("Within a few days the water has spread into the new bedding.", 7, EULESS),
    worry="It still drips then, or worms die: move the living ones onto fresh damp bedding.",
    look="see whether a handful still drips",
    stops_feeding=True,
)

LITTLE_AIR = Cause(
    "little-air",
    "Too little air",
    "Where no air comes in, food rots instead of going the way of worms.",
    Page.SMELLS,
    speaks=(
        Speaks("matted", STRONG, SREENIVASAN),
        Speaks("smell-rotten", FAIR, OREGON),
        Speaks("drips", SLIGHT, OREGON),
        Speaks("leaving", SLIGHT, KAPLAN),
        Speaks("dead", SLIGHT, KAPLAN),
    ),
    asks=(Asks(READS_WET, SLIGHT, SLIGHT), Asks(BEDDING_LATE, SLIGHT, SLIGHT)),
    remedies=(
        r.FLUFF,
        r.OPEN_HOLES,
        Remedy("Mix loose bedding in; coarse pieces such as chopped leaves let more air in.", SREENIVASAN),
        Remedy("Keep the bedding shallow.", SREENIVASAN, deepest_bed),
        r.LOOK_IN_ALL,
    ),
    expect=Expect("The smell is weaker, and the bed stays loose.", 7, OURS),
    worry="It smells as strong as before: look whether it is too wet, or holds too much food.",
    look="see whether it is loose and smells less",
)

TOO_DRY = Cause(
    "too-dry",
    "Too dry",
    "Worms live at 60 to 90 % moisture (Edwards 1988).",
    Page.MOISTURE,
    speaks=(
        Speaks("dry", STRONG, KAPLAN),
        Speaks("leaving", STRONG, RECYCLEWORKS),
        Speaks("ants", FAIR, COLUMN),
        Speaks("uneaten", SLIGHT, OURS),
        Speaks("dead", SLIGHT, EDWARDS),
        Speaks("drips", STRONG, OURS, against=True),
        Speaks("sump-full", FAIR, OURS, against=True),
    ),
    asks=(Asks(READS_DRY, STRONG, STRONG),),
    remedies=(
        Remedy("Sprinkle water on, a little at a time, and mix.", KAPLAN, water),
        Remedy("Lay a damp cover sheet on top.", PRACTICE),
        Remedy("Wet new bedding before it goes in.", PRACTICE),
        r.ANT_LEGS,
        r.ANT_BAND,
        r.WET_FOR_ANTS,
        r.LOOK_IN_ALL,
    ),
    expect=Expect("It holds together when squeezed, and worms are at work in the top again.", 3, OURS),
    worry="Water runs straight through: stand it in the bedding longer, a little each day.",
    look="see whether a handful holds together",
)

BEDDING_OUT = Cause(
    "bedding-out",
    "The bedding has run out",
    "Bedding takes up water and lets air in; worms eat it along with the food.",
    Page.BEDDING,
    speaks=(
        Speaks("bedding-gone", STRONG, PRACTICE),
        Speaks("sump-full", FAIR, BULKING),
        Speaks("drips", FAIR, BULKING),
        Speaks("matted", FAIR, SREENIVASAN),
        Speaks("fruit-flies", SLIGHT, OREGON),
        Speaks("smell-rotten", SLIGHT, OREGON),
        Speaks("in-sump", SLIGHT, PRACTICE),
    ),
    asks=(Asks(BEDDING_LATE, FAIR, FAIR), Asks(WATER_LEFT_OVER, SLIGHT, SLIGHT)),
    remedies=(
        Remedy("Mix dry shreds in.", OREGON, dry_bedding),
        Remedy("Give bedding with every feeding.", OREGON, bedding_with_food),
        r.DRY_PAPER,
        r.FLY_TRAP,
    ),
    expect=Expect("Within a few days it drips less.", 7, EULESS),
    worry="It is dark and dense to the bottom: the tray may be finished, and wants separating.",
    look="see whether there is loose bedding",
)

WATER_CAUSES = (TOO_WET, LITTLE_AIR, TOO_DRY, BEDDING_OUT)
