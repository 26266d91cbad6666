"""Which cautions to read before which work. At most nine at a time: people skip longer lists.

Five to nine items at a pause point: Boorman in Gawande, The Checklist Manifesto, 2009. Dangers come first,
washing hands last, as in the work itself.
"""

from __future__ import annotations

from trayturn.advice.caution_list import CAUTIONS, Caution

__all__ = ["CAUTIONS", "WORKS", "Caution", "cautions_for"]

WORK_WORDS = {
    "separation": "separating",
    "starting": "starting a bin",
    "feeding": "feeding",
    "grit": "grinding grit",
    "turn": "turning",
    "putting_right": "putting right",
    "giving_away": "giving castings away",
}
"""Each kind of work as it is said."""
CODES = {
    "separation": ("dust", "mould", "gloves", "cuts", "tetanus", "lifting", "children", "hands"),
    "starting": (
        "clean_bedding",
        "weedkiller",
        "mould",
        "gloves",
        "cuts",
        "lifting",
        "children",
        "hands",
    ),
    "feeding": ("no_waste", "pests", "gloves", "cuts", "children", "hands"),
    "grit": ("grit_dust", "egg_allergy", "shell_germs", "grinder", "children", "hands"),
    "turn": ("lifting", "dust", "mould", "gloves", "cuts", "clean_bedding", "hands"),
    "putting_right": (
        "ammonia",
        "mould",
        "dust",
        "grit_dust",
        "rodents",
        "flatworms",
        "gloves",
        "cuts",
        "hands",
    ),
    "giving_away": ("local_rules", "not_sterile", "claims", "no_waste", "weedkiller", "dust", "hands"),
}
WORKS = tuple(CODES)


def cautions_for(work: str) -> tuple[Caution, ...]:
    """The cautions of one kind of work, in reading order. Raises `ValueError` for work not in `WORKS`."""
    if work not in CODES:
        raise ValueError(f"There are no cautions for {work!r}; the works are {', '.join(WORKS)}.")
    by_code = {caution.code: caution for caution in CAUTIONS}
    return tuple(by_code[code] for code in CODES[work])
