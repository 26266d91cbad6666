"""Causes to do with what is in the tray: acid, nitrogen, salt, citrus, onion, protein."""

from __future__ import annotations

from trayturn.advice.pages import Page
from trayturn.advice.trouble import remedies as r
from trayturn.advice.trouble.amounts import bedding_for_carbon, citrus_fed, no_food, salty_fed, thinned
from trayturn.advice.trouble.asks_amounts import FED_OVER
from trayturn.advice.trouble.asks_mix import RICH_IN_NITROGEN, SALTY_FED
from trayturn.advice.trouble.asks_readings import READS_ACID
from trayturn.advice.trouble.asks_shares import MUCH_ALLIUM, MUCH_CITRUS, MUCH_PROTEIN, MUCH_STARCH, NO_GRIT
from trayturn.advice.trouble.parts import FAIR, NONE, SLIGHT, STRONG, Asks, Cause, Expect, Remedy, Speaks
from trayturn.advice.trouble.sources import (
    CITRUS_ACID,
    EDWARDS,
    KAPLAN,
    LEAFLET,
    LIMONENE,
    MINNESOTA,
    NC_MITES,
    NDEGWA,
    OURS,
    PRACTICE,
    RECYCLEWORKS,
    SOLOMON,
    TRADE,
)

TOO_ACID = Cause(
    "too-acid",
    "Too acid",
    "Worms die below pH 5 and do best near 7 (Kaplan et al. 1980).",
    Page.PH,
    speaks=(
        Speaks("smell-sour", STRONG, NC_MITES),
        Speaks("dead", STRONG, RECYCLEWORKS),
        Speaks("white-mites", FAIR, NC_MITES),
        Speaks("red-mites", FAIR, NC_MITES),
        Speaks("pot-worms", FAIR, TRADE),
        Speaks("leaving", FAIR, KAPLAN),
        Speaks("beaded", SLIGHT, TRADE),
    ),
    asks=(
        Asks(READS_ACID, STRONG, STRONG),
        Asks(MUCH_CITRUS, SLIGHT, SLIGHT),
        Asks(MUCH_STARCH, SLIGHT, SLIGHT),
        Asks(NO_GRIT, SLIGHT, SLIGHT),
    ),
    remedies=(
        Remedy("Take out citrus, and what smells sour.", RECYCLEWORKS, citrus_fed),
        r.CHALK,
        r.SHELLS,
        r.LURE_MITES,
        Remedy("Lift pot worms off with bread soaked in milk.", TRADE, signs=("pot-worms",)),
    ),
    expect=Expect("A pH strip reads nearer to 7.", 7, OURS),
    worry="Worms die: move the living ones onto fresh damp bedding at once.",
    look="press a pH strip in and see whether it reads nearer to 7",
    cautions=("grit_dust", "gloves", "hands"),
)

MUCH_NITROGEN = Cause(
    "much-nitrogen",
    "Too much nitrogen for its carbon",
    "Food rich in nitrogen gives off ammonia; worms bear less than 0.5 mg of it in a gram (Edwards 1988).",
    Page.SMELLS,
    speaks=(
        Speaks("smell-ammonia", STRONG, EDWARDS),
        Speaks("dead", FAIR, KAPLAN),
        Speaks("leaving", FAIR, EDWARDS),
        Speaks("heating", SLIGHT, LEAFLET),
    ),
    asks=(Asks(RICH_IN_NITROGEN, FAIR, SLIGHT), Asks(FED_OVER, SLIGHT, NONE)),
    remedies=(
        Remedy("Air the room. If eyes or throat sting, leave until it has cleared.", MINNESOTA),
        Remedy("Stop feeding.", OURS, no_food),
        Remedy("Mix dry card or paper in; C:N 25 was the best tried.", NDEGWA, bedding_for_carbon),
        Remedy("Loosen it, so that air gets in.", OURS),
    ),
    expect=Expect("The smell is weaker; the nose grows used to it, so ask someone who comes in.", 7, OURS),
    worry="Eyes or throat sting, or worms die: take it outdoors, and move living worms onto fresh bedding.",
    look="ask someone who comes in whether it smells of ammonia",
    stops_feeding=True,
    cautions=("ammonia", "gloves", "hands"),
)

SALTY = Cause(
    "salty",
    "Too salty",
    "More than 0.5 % of salt kills worms (Kaplan et al. 1980).",
    Page.SALT,
    speaks=(Speaks("dead", FAIR, KAPLAN), Speaks("leaving", SLIGHT, EDWARDS)),
    asks=(Asks(SALTY_FED, STRONG, FAIR),),
    remedies=(
        Remedy("Take salty food out and leave it out: bread, crackers, pickles, cheese.", EDWARDS, salty_fed),
        Remedy("Mix damp bedding in, to thin what is left.", OURS, thinned),
    ),
    expect=Expect("No more worms die, and none leave.", 7, OURS),
    worry="Worms go on dying: move the living ones onto fresh damp bedding.",
    look="see whether worms still die or leave",
)

CITRUS = Cause(
    "citrus",
    "Much citrus",
    "An oil of its peel killed worms it touched (Karr et al. 1990); yet a bin of half citrus worked "
    "(BioResources 2022), and Solomon calls it fine. So: little of it, not none.",
    Page.MEALS,
    speaks=(
        Speaks("dead", FAIR, LIMONENE),
        Speaks("leaving", SLIGHT, LIMONENE),
        Speaks("smell-sour", SLIGHT, CITRUS_ACID),
        Speaks("uneaten", SLIGHT, OURS),
    ),
    asks=(Asks(MUCH_CITRUS, STRONG, FAIR),),
    remedies=(
        Remedy("Take the peel out.", RECYCLEWORKS, citrus_fed),
        Remedy("Later a little at a time, chopped and spread.", SOLOMON),
        r.SHELLS,
    ),
    expect=Expect("Worms come back to where the peel lay.", 7, OURS),
    worry="Worms die though the peel is out: read the pH.",
    look="see whether worms are back where the peel lay",
)

ONION = Cause(
    "onion",
    "Much onion or garlic",
    "Said to be harsh to worms and to smell. No experiment was found.",
    Page.MEALS,
    speaks=(
        Speaks("leaving", SLIGHT, PRACTICE),
        Speaks("uneaten", SLIGHT, PRACTICE),
        Speaks("smell-rotten", SLIGHT, PRACTICE),
    ),
    asks=(Asks(MUCH_ALLIUM, STRONG, FAIR),),
    remedies=(
        Remedy("Take out what lies in lumps.", PRACTICE),
        Remedy("Later a little at a time, chopped and spread.", PRACTICE),
    ),
    expect=Expect("The smell is gone.", 7, OURS),
    worry="It smells on without onion in it: look for another cause.",
    look="see whether the smell is gone",
)

PROTEIN = Cause(
    "protein",
    "A surfeit of protein",
    "Growers say that rich food sours in the worm and bursts it. No research or public advice was found.",
    Page.MEALS,
    speaks=(
        Speaks("beaded", STRONG, TRADE),
        Speaks("dead", SLIGHT, TRADE),
        Speaks("smell-sour", SLIGHT, TRADE),
    ),
    asks=(Asks(MUCH_PROTEIN, FAIR, FAIR), Asks(NO_GRIT, SLIGHT, SLIGHT)),
    remedies=(
        Remedy("Stop feeding.", TRADE, no_food),
        Remedy("Loosen it, so that air gets in.", TRADE),
        r.CHALK,
        Remedy("Give fresh damp bedding.", TRADE),
    ),
    expect=Expect("No more worms swell.", 7, OURS),
    worry="Worms go on dying: move those that look well onto fresh damp bedding.",
    look="see whether more worms swell",
    stops_feeding=True,
    cautions=("grit_dust", "gloves", "hands"),
)

MAKEUP_CAUSES = (TOO_ACID, MUCH_NITROGEN, SALTY, CITRUS, PROTEIN, ONION)
