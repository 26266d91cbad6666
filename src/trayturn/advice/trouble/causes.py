"""Every cause, in the order in which equals are told."""

from __future__ import annotations

from trayturn.advice.trouble.causes_food import FOOD_CAUSES
from trayturn.advice.trouble.causes_makeup import MAKEUP_CAUSES
from trayturn.advice.trouble.causes_water import WATER_CAUSES
from trayturn.advice.trouble.causes_worms import WORM_CAUSES
from trayturn.advice.trouble.parts import Cause, Evidence

CAUSES: tuple[Cause, ...] = (*WATER_CAUSES, *FOOD_CAUSES, *MAKEUP_CAUSES, *WORM_CAUSES)
CAUSE = {cause.code: cause for cause in CAUSES}
"""Every cause by its code."""
EVIDENCE: dict[str, Evidence] = {ask.evidence.code: ask.evidence for cause in CAUSES for ask in cause.asks}
"""Every question that some cause puts to the journal, by its code."""
