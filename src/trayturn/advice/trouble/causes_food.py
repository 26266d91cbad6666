"""Causes to do with how much is fed, how it lies, and what it is."""

from __future__ import annotations

from trayturn.advice.pages import Page
from trayturn.advice.trouble import remedies as r
from trayturn.advice.trouble.amounts import cover, dry_bedding, left_out_fed, smaller_meals
from trayturn.advice.trouble.asks_amounts import FED_BARE, FED_OVER, UNEATEN_MUCH
from trayturn.advice.trouble.asks_shares import GRAIN_FED, LEFT_OUT_FED, MUCH_TOUGH
from trayturn.advice.trouble.parts import FAIR, SLIGHT, STRONG, Asks, Cause, Expect, Remedy, Speaks
from trayturn.advice.trouble.sources import (
    CHOPPED,
    EPA,
    EULESS,
    GRAIN_SHEET,
    LEAFLET,
    NC_MITES,
    NEW_YORK,
    OREGON,
    OURS,
    PRACTICE,
    RECYCLEWORKS,
    SOLOMON,
    SREENIVASAN,
    TRADE,
)

OVERFED = Cause(
    "overfed",
    "More food than the worms take",
    "What is not eaten rots, sours and heats.",
    Page.FEEDING,
    speaks=(
        Speaks("uneaten", STRONG, OREGON),
        Speaks("smell-rotten", STRONG, OREGON),
        Speaks("mould", FAIR, RECYCLEWORKS),
        Speaks("smell-sour", FAIR, NC_MITES),
        Speaks("white-mites", FAIR, NC_MITES),
        Speaks("red-mites", FAIR, NC_MITES),
        Speaks("heating", FAIR, SREENIVASAN),
        Speaks("smell-ammonia", SLIGHT, RECYCLEWORKS),
        Speaks("drips", SLIGHT, EULESS),
        Speaks("springtails", SLIGHT, TRADE),
        Speaks("fruit-flies", SLIGHT, OREGON),
    ),
    asks=(Asks(FED_OVER, STRONG, FAIR), Asks(UNEATEN_MUCH, FAIR, FAIR)),
    remedies=(
        r.STOP_FOOD,
        r.TAKE_MOULDY,
        Remedy("Break up the lumps, so that worms get at them.", OREGON),
        r.FLUFF,
        Remedy("Mix loose dry bedding in where it is wet.", OREGON, dry_bedding),
        Remedy("Then feed less at a time.", NEW_YORK, smaller_meals),
        r.LURE_MITES,
        r.FLY_TRAP,
    ),
    expect=Expect("After at least a week without food the smell is gone, and most of the food.", 7, OREGON),
    worry="The smell grows stronger, or worms die: take the food out, and see whether it is too wet.",
    look="see whether the food is gone and it smells less",
    stops_feeding=True,
)

EXPOSED_FOOD = Cause(
    "exposed-food",
    "Food lies open",
    "Flies find food that is not covered.",
    Page.PESTS,
    speaks=(
        Speaks("fruit-flies", STRONG, RECYCLEWORKS),
        Speaks("soldier-fly-larvae", FAIR, TRADE),
        Speaks("smell-rotten", FAIR, RECYCLEWORKS),
        Speaks("mould", SLIGHT, RECYCLEWORKS),
        Speaks("ants", SLIGHT, OURS),
        Speaks("mice", SLIGHT, OURS),
    ),
    asks=(Asks(FED_BARE, FAIR, FAIR),),
    remedies=(
        Remedy("Bury food under shredded paper, each time.", RECYCLEWORKS),
        Remedy("Cover it well.", SOLOMON, cover),
        Remedy("Wash skins, or freeze scraps first, or microwave them for 10 seconds.", NEW_YORK),
        r.FLY_TRAP,
        r.ANT_LEGS,
        r.ANT_BAND,
        r.RODENTS,
    ),
    expect=Expect("Fewer flies rise when the lid comes off.", 14, OURS),
    worry="As many rise as before: take ripe fruit out, and hold food back for a while.",
    look="see whether fewer flies rise",
)

RICH_FOOD = Cause(
    "rich-food",
    "Meat, dairy, fat or salty food in it",
    "It smells as it rots, and draws flies and rodents.",
    Page.MEALS,
    speaks=(
        Speaks("mice", STRONG, EPA),
        Speaks("smell-rotten", FAIR, OREGON),
        Speaks("soldier-fly-larvae", FAIR, TRADE),
        Speaks("fruit-flies", SLIGHT, EPA),
    ),
    asks=(Asks(LEFT_OUT_FED, STRONG, FAIR),),
    remedies=(
        Remedy("Take it out.", OURS, left_out_fed),
        Remedy("Leave meat, dairy and oily food out from now on.", OREGON),
        r.RODENTS,
        r.FLUFF,
    ),
    expect=Expect("The smell is gone, and nothing has been at the bin.", 7, OURS),
    worry="Rats or mice stay: ask your authority or a licensed pest controller.",
    look="see whether the smell is gone and nothing has been at it",
)

BIG_PIECES = Cause(
    "big-pieces",
    "Pieces too big or too tough",
    "Small pieces go faster, and some things outlast months.",
    Page.MEALS,
    speaks=(Speaks("uneaten", FAIR, CHOPPED), Speaks("mould", SLIGHT, OURS)),
    asks=(Asks(MUCH_TOUGH, FAIR, FAIR),),
    remedies=(
        Remedy("Chop scraps small before they go in.", CHOPPED),
        Remedy("Break up what lies there.", OREGON),
        Remedy("Cobs, stones and shells go on into the next tray when this one is separated.", PRACTICE),
    ),
    expect=Expect("New scraps go faster than the old ones.", 21, OURS),
    worry="Soft scraps lie as long as tough ones: it is not their size.",
    look="see whether chopped scraps go faster",
)

DRY_GRAIN = Cause(
    "dry-grain",
    "Dry meal or grain lies in it",
    "Grain mites live on it where the air is damp, and meal heats as it breaks down.",
    Page.MEALS,
    speaks=(Speaks("grain-mites", STRONG, GRAIN_SHEET), Speaks("heating", FAIR, LEAFLET)),
    asks=(Asks(GRAIN_FED, STRONG, FAIR),),
    remedies=(
        Remedy("Take out what is left of it, and feed no dry grain or meal.", GRAIN_SHEET),
        Remedy("Lower the damp of the air: lid ajar, surface dry.", GRAIN_SHEET),
    ),
    expect=Expect("The pale dust of mites on the surface is gone.", 14, OURS),
    worry="They spread over the room: clean up with gloves and mask on.",
    look="see whether the pale dust of mites is gone",
    cautions=("mould", "gloves", "hands"),
)

FOOD_CAUSES = (OVERFED, EXPOSED_FOOD, RICH_FOOD, BIG_PIECES, DRY_GRAIN)
