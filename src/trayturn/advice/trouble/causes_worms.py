"""Causes to do with warmth, with the worms themselves, and with what comes in from outside."""

from __future__ import annotations

from trayturn.advice.pages import Page
from trayturn.advice.trouble import remedies as r
from trayturn.advice.trouble.amounts import cool_place, smaller_meals, thin_layer, warm_place, worms_wanted
from trayturn.advice.trouble.asks_amounts import FED_OVER, FED_THICK, FED_UNDER
from trayturn.advice.trouble.asks_bin import BIN_NEW, TRAY_SPENT, WORMS_CROWDED, WORMS_FEW
from trayturn.advice.trouble.asks_readings import READS_COLD, READS_HOT
from trayturn.advice.trouble.asks_shares import HEATING_FED
from trayturn.advice.trouble.parts import FAIR, SLIGHT, STRONG, Asks, Cause, Expect, Remedy, Speaks
from trayturn.advice.trouble.sources import (
    CHATELAIN,
    EDWARDS,
    EDWARDS_DEPTH,
    FARMER,
    HAMBURG,
    NC_MITES,
    NC_WARMTH,
    NEW_YORK,
    OREGON,
    OURS,
    PRACTICE,
    RECYCLEWORKS,
    SHERMAN,
    SREENIVASAN,
)

TOO_COLD = Cause(
    "too-cold",
    "Too cold",
    "Worms eat and scraps break down more slowly the colder it is; frost kills.",
    Page.TEMPERATURE,
    speaks=(
        Speaks("chilled", STRONG, NC_WARMTH),
        Speaks("uneaten", FAIR, HAMBURG),
        Speaks("sluggish", FAIR, EDWARDS),
        Speaks("few-seen", SLIGHT, OURS),
        Speaks("dead", SLIGHT, OREGON),
        Speaks("heating", STRONG, OURS, against=True),
    ),
    asks=(Asks(READS_COLD, STRONG, STRONG),),
    remedies=(
        Remedy("Move it where it is warmer, such as a garage or shed in frost.", OREGON, warm_place),
        Remedy("Outdoors, pack straw or dry leaves around it.", OREGON),
        Remedy("Feed less while it is cold.", NC_MITES, smaller_meals),
    ),
    expect=Expect("A thermometer in the food reads more, and food goes faster.", 7, OURS),
    worry="It is near freezing: bring it in today.",
    look="read a thermometer and see whether it is warmer",
)

TOO_HOT = Cause(
    "too-hot",
    "Too hot",
    "Worms stop stirring above 29 C (84 F) and may die above 32 C (90 F); food in a heap heats.",
    Page.TEMPERATURE,
    speaks=(
        Speaks("heating", STRONG, SREENIVASAN),
        Speaks("dead", FAIR, OREGON),
        Speaks("leaving", FAIR, CHATELAIN),
        Speaks("sluggish", FAIR, SREENIVASAN),
        Speaks("chilled", STRONG, OURS, against=True),
    ),
    asks=(
        Asks(READS_HOT, STRONG, STRONG),
        Asks(FED_THICK, FAIR, SLIGHT),
        Asks(HEATING_FED, SLIGHT, SLIGHT),
    ),
    remedies=(
        Remedy("Move it into the shade, or somewhere cooler.", SREENIVASAN, cool_place),
        Remedy("Spread the food, and take out what is hot.", SHERMAN, thin_layer),
        Remedy("Feed little and often.", SREENIVASAN),
        Remedy("Keep the bedding damp: as it dries it cools.", SREENIVASAN),
        r.LOOK_IN_ALL,
    ),
    expect=Expect("A thermometer in the food reads less.", 2, OURS),
    worry="It stays hot: take the food out, today.",
    look="read a thermometer and see whether it is cooler",
)

FEW_WORMS = Cause(
    "few-worms",
    "Too few worms for the food",
    "The same food is too much for few worms.",
    Page.WORM_NUMBERS,
    speaks=(
        Speaks("few-seen", STRONG, PRACTICE),
        Speaks("uneaten", FAIR, RECYCLEWORKS),
        Speaks("smell-rotten", FAIR, RECYCLEWORKS),
    ),
    asks=(Asks(WORMS_FEW, FAIR, FAIR), Asks(FED_OVER, SLIGHT, SLIGHT)),
    remedies=(
        Remedy("Feed what the worms that are there take.", NEW_YORK, smaller_meals),
        Remedy("Weigh or count them, so that it is known.", OURS),
        Remedy("Put worms in, or wait for them to breed.", PRACTICE, worms_wanted),
    ),
    expect=Expect("In good conditions worms double in two to three months.", 30, FARMER),
    worry="They grow fewer: something harms them, so look for another cause.",
    look="see whether a handful holds more worms",
)

CROWDED = Cause(
    "crowded",
    "More worms than it can carry",
    "Worms leave where they stand dense, or have little to eat.",
    Page.SPLITTING,
    speaks=(Speaks("leaving", FAIR, CHATELAIN), Speaks("in-sump", SLIGHT, OURS)),
    asks=(Asks(WORMS_CROWDED, FAIR, FAIR), Asks(FED_UNDER, FAIR, FAIR)),
    remedies=(
        Remedy("Feed more, or more often.", OURS, smaller_meals),
        Remedy("Add a tray with fresh bedding, or give worms away.", PRACTICE),
        r.LOOK_IN_ALL,
    ),
    expect=Expect("Fewer worms are on the walls.", 14, OURS),
    worry="They go on leaving though there is food: it is something else.",
    look="see whether fewer worms are on the walls",
)

MOVED_ON = Cause(
    "moved-on",
    "The worms have moved to fresher food",
    "Worms keep to the top 10 to 15 cm (4 to 6 in) and go where the food is.",
    Page.TURNING,
    speaks=(Speaks("few-seen", FAIR, EDWARDS_DEPTH), Speaks("uneaten", SLIGHT, OURS)),
    asks=(Asks(TRAY_SPENT, FAIR, STRONG),),
    remedies=(
        Remedy("Look in the tray that is fed: they are likely there.", EDWARDS_DEPTH),
        Remedy("A tray that has finished can be separated.", PRACTICE),
    ),
    expect=Expect("Worms are in the tray that is fed.", 7, OURS),
    worry="They are in no tray: look for another cause.",
    look="see whether worms are in the tray that is fed",
)

NEW_BIN = Cause(
    "new-bin",
    "A new bin, still settling",
    "Worms wander until a bin has become theirs, and eat little at first.",
    Page.STARTING,
    speaks=(
        Speaks("leaving", FAIR, PRACTICE),
        Speaks("few-seen", SLIGHT, PRACTICE),
        Speaks("uneaten", SLIGHT, PRACTICE),
    ),
    asks=(Asks(BIN_NEW, FAIR, STRONG),),
    remedies=(
        Remedy("See first that it is neither too wet nor too dry, too warm nor too cold.", RECYCLEWORKS),
        Remedy("Put strays back, and keep the lid on.", PRACTICE),
        Remedy("Feed little until the first meals are gone.", PRACTICE, smaller_meals),
    ),
    expect=Expect("They stay down in the bedding.", 7, OURS),
    worry="They go on leaving after that: it is not because it is new.",
    look="see whether the worms stay down",
)

FROM_OUTSIDE = Cause(
    "from-outside",
    "It came in from outside",
    "With soil or plants, from the ground, or through a gap. Nothing in a journal can tell.",
    Page.PESTS,
    speaks=(
        Speaks("flatworms", STRONG, PRACTICE),
        Speaks("centipedes", STRONG, PRACTICE),
        Speaks("ants", FAIR, RECYCLEWORKS),
        Speaks("mice", FAIR, PRACTICE),
    ),
    asks=(),
    remedies=(
        r.FLATWORMS,
        r.HAND_PICK,
        r.ANT_LEGS,
        r.ANT_BAND,
        r.RODENTS,
        Remedy("Put no soil in; lift the bin off the ground, and fit mesh over gaps.", PRACTICE),
    ),
    expect=Expect("None are to be seen.", 7, OURS),
    worry="They come back: find the way in. Pests that stay are for your authority or a licensed controller.",
    look="see whether any are left",
    cautions=("rodents", "flatworms", "gloves", "hands"),
)

WORM_CAUSES = (TOO_COLD, TOO_HOT, FEW_WORMS, CROWDED, MOVED_ON, NEW_BIN, FROM_OUTSIDE)
