"""The signs a keeper can tick, by where to look for them."""

from __future__ import annotations

from trayturn.advice.trouble.parts import Group, Sign
from trayturn.advice.trouble.sources import ALABAMA, CDC_RODENTS, EULESS, GNATS, NC_MITES, TRADE
from trayturn.domain.entries import Pest

_SMELL, _WORMS, _WATER, _FOOD, _LIFE = Group

SIGNS: tuple[Sign, ...] = (
    Sign("smell-rotten", _SMELL, "rotten", "It smells rotten."),
    Sign("smell-ammonia", _SMELL, "of ammonia, sharp in the nose", "It smells of ammonia."),
    Sign("smell-sour", _SMELL, "sour, like vinegar", "It smells sour."),
    Sign("leaving", _WORMS, "on lid or walls, or leaving", "Worms are on the lid or walls, or leaving."),
    Sign("in-sump", _WORMS, "many in the sump", "Many worms are in the sump."),
    Sign("few-seen", _WORMS, "few to be seen", "Few worms are to be seen."),
    Sign("dead", _WORMS, "dead or limp", "Worms are dead or limp."),
    Sign("beaded", _WORMS, "swollen like beads on a string", "Worms are swollen like beads on a string."),
    Sign("sluggish", _WORMS, "slow to move when touched", "Worms are slow to move when touched."),
    Sign(
        "drips",
        _WATER,
        "a handful drips when squeezed",
        "A handful drips when it is squeezed.",
        reading="reads-wet",
    ),
    Sign(
        "sump-full",
        _WATER,
        "stands below or fills the sump",
        "Water stands at the bottom, or the sump fills.",
        "Food is 80 to 90 % water, and more is made as it breaks down.",
        EULESS,
        "sump-fills",
    ),
    Sign("dry", _WATER, "dry and crumbly", "It is dry and crumbly.", reading="reads-dry"),
    Sign("uneaten", _FOOD, "still there after three weeks", "Food is still there after three weeks."),
    Sign("mould", _FOOD, "mould on it", "There is mould on the food."),
    Sign("heating", _FOOD, "warm to the hand", "It is warm to the hand.", reading="reads-hot"),
    Sign("chilled", _FOOD, "cold to the hand", "It is cold to the hand.", reading="reads-cold"),
    Sign("matted", _FOOD, "matted and dense, without air", "It is matted and dense."),
    Sign("bedding-gone", _FOOD, "no bedding left to see", "No bedding is left to see."),
    Sign(
        "white-mites",
        _LIFE,
        "white or brown mites, many",
        "There are many white or brown mites.",
        "They feed on decaying and injured worms, and take the food of the others.",
        NC_MITES,
    ),
    Sign(
        "red-mites",
        _LIFE,
        "red mites",
        "There are red mites.",
        "They live on worms. At first they look like small white or grey clusters, much like mould.",
        NC_MITES,
    ),
    Sign("grain-mites", _LIFE, "grain mites", "There are grain mites."),
    Sign("fruit-flies", _LIFE, "fruit flies", "There are fruit flies."),
    Sign(
        "fungus-gnats",
        _LIFE,
        "fungus gnats",
        "There are fungus gnats.",
        "In potting soil they thrive where it is moist.",
        GNATS,
    ),
    Sign("pot-worms", _LIFE, "pot worms, thin and white", "There are many pot worms.", "Harmless.", TRADE),
    Sign("springtails", _LIFE, "springtails", "There are many springtails.", "Harmless.", TRADE),
    Sign("ants", _LIFE, "ants", "There are ants."),
    Sign(
        "soldier-fly-larvae",
        _LIFE,
        "soldier fly larvae",
        "There are soldier fly larvae.",
        "Harmless to worms.",
        TRADE,
    ),
    Sign(
        "flatworms",
        _LIFE,
        "flatworms",
        "There are flatworms.",
        "Some eat earthworms and carry a toxin: no bare hands, and do not cut them, as the pieces live on.",
        ALABAMA,
    ),
    Sign("centipedes", _LIFE, "centipedes", "There are centipedes."),
    Sign(
        "mice",
        _LIFE,
        "mice or rats, or droppings",
        "There are mice or rats, or their droppings.",
        "Neither sweep nor vacuum droppings: what flies up can make you ill.",
        CDC_RODENTS,
    ),
)
SIGN = {sign.code: sign for sign in SIGNS}
"""Every sign by its code."""
OF_PEST = {pest: str(pest).replace(" ", "-") for pest in Pest}
"""The sign that each animal of a check is."""
