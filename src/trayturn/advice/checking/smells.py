"""What a smell in the keeper's own words amounts to."""

from __future__ import annotations

import re
from enum import StrEnum


class Smell(StrEnum):
    """The smells that tell something, by the words they are picked by."""

    EARTHY = "earthy"
    SOUR = "sour"
    ROTTEN = "rotten"
    AMMONIA = "ammonia"
    OTHER = "other"


SIGNS = {
    Smell.AMMONIA: re.compile(r"ammonia|urine", re.IGNORECASE),
    Smell.ROTTEN: re.compile(r"\brot|putrid|sewage|sewer|foul|stink|sulph|sulf|bad egg", re.IGNORECASE),
    Smell.SOUR: re.compile(r"sour|acid|vinegar|ferment", re.IGNORECASE),
    Smell.EARTHY: re.compile(r"earth|forest|soil|^(none|no smell|nothing)$", re.IGNORECASE),
}
"""Words for each, the one that matters most first."""
TAKEN_BACK = re.compile(r"\b(no|not|without|never|gone|no longer)\b", re.IGNORECASE)


def smell_of(words: str) -> Smell:
    """The smell that words tell of. `No ammonia now` is not judged: the words are the keeper's own."""
    text = words.strip()
    found = next((smell for smell, sign in SIGNS.items() if sign.search(text)), Smell.OTHER)
    return Smell.OTHER if found is not Smell.EARTHY and TAKEN_BACK.search(text) else found
