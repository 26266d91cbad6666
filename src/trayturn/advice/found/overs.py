"""Pieces that go round: what usually becomes of them, what became of those before, and what to do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trayturn.advice.found.kinds import PRACTICE
from trayturn.advice.pantry import Pantry
from trayturn.domain.lots import Over
from trayturn.domain.stack import Stack, days_between
from trayturn.domain.supplies import fold
from trayturn.science.finding import holds, stems

SOLOMON = "Solomon, Organic Gardener's Composting, 1993"
LIGNIN = "avocado peel and stone, Sciforum 7750"
TABLE = "the table of ingredients; how fast is our judgement, no table of days was found"
MANY_TURNS = 3
"""After so many turns a piece is told to be broken up or left out. Our choice."""


@dataclass(frozen=True, slots=True)
class Usual:
    """What usually becomes of such pieces, and who says so."""

    what: str
    source: str


@dataclass(frozen=True, slots=True)
class _Note:
    """A note on pieces whose name holds all words of any of `names`."""

    names: tuple[str, ...]
    usual: Usual


OUTLASTS = "outlasts several turns"
NOTES = (
    _Note(
        ("avocado shell", "avocado skin", "avocado peel"),
        Usual("Avocado shells outlast several turns: they are 35 % lignin.", f"{PRACTICE}; {LIGNIN}"),
    ),
    _Note(
        ("avocado stone", "avocado pit", "avocado seed"),
        Usual("Avocado stones last: they are 15 % lignin. Halved they go sooner.", f"{LIGNIN}; {PRACTICE}"),
    ),
    _Note(("mango stone", "mango pit", "mango seed"), Usual(f"A mango stone {OUTLASTS}.", PRACTICE)),
    _Note(
        ("corn cob", "corncob", "cob"),
        Usual(f"A corn cob {OUTLASTS}; it is there after 6 to 8 months.", f"{PRACTICE}; {SOLOMON}"),
    ),
    _Note(
        ("squash seed", "pumpkin seed", "tomato skin", "husk"),
        Usual("Squash seeds, tomato skins and some husks were still there after 6 to 8 months.", SOLOMON),
    ),
    _Note(
        ("cabbage core", "cabbage stalk", "brassica core", "broccoli stalk", "celery butt", "celery"),
        Usual("Large cores and butts take long unless they are sliced thin.", SOLOMON),
    ),
    _Note(("bone",), Usual("Bones persist when all on them is gone.", SOLOMON)),
    _Note(
        ("egg shell", "eggshell", "nut shell", "nutshell", "walnut shell", "clam shell", "mussel shell"),
        Usual("Shells stay until they are broken or ground; they do no harm.", PRACTICE),
    ),
    _Note(
        ("stick", "twig", "wood", "branch", "chip", "cork"),
        Usual("Wood outlasts many turns; it keeps the tray airy meanwhile.", PRACTICE),
    ),
    _Note(
        ("stone", "pit"),
        Usual("Stones of fruit outlast several turns; cracked they go sooner.", PRACTICE),
    ),
)
SPEEDS = {
    "very slow": "It breaks down very slowly: months, often more than one turn.",
    "slow": "It breaks down slowly: one to three months, so a turn is often enough.",
    "medium": "It breaks down in weeks: large pieces may need one turn more.",
    "fast": "It breaks down in days: what is left was dry, cold or new.",
}


@dataclass(frozen=True, slots=True)
class Went:
    """Pieces of one kind that went in the past: after so many turns and days, the least and the most."""

    what: str
    times: int
    turns: tuple[int, int]
    days: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Going:
    """Pieces that lie in a tray now. `usual` is None where nothing is known of such."""

    over: Over
    usual: Usual | None
    before: Went | None
    do: str


def going_round(stack: Stack, pantry: Pantry) -> list[Going]:
    """Pieces that lie in trays, those that have gone round longest first."""
    past = {fold(one.what): one for one in went(stack)}
    found = [
        Going(over, usual(over.what, pantry), past.get(fold(over.what)), what_to_do(over, stack))
        for over in stack.overs
    ]
    return sorted(found, key=lambda one: (-one.over.turns, one.over.first_at, one.over.what))


def went(stack: Stack) -> list[Went]:
    """What became of pieces in the past, by what they were, the most often seen first."""
    by_kind: dict[str, list[Over]] = {}
    for over in stack.overs_gone:
        by_kind.setdefault(fold(over.what), []).append(over)
    return sorted((_went(overs) for overs in by_kind.values()), key=lambda one: (-one.times, one.what))


def _went(overs: Sequence[Over]) -> Went:
    turns = [over.turns for over in overs]
    days = [days_between(over.first_at, over.gone_at) for over in overs if over.gone_at is not None]
    return Went(overs[-1].what, len(overs), (min(turns), max(turns)), (min(days), max(days)))


def usual(what: str, pantry: Pantry) -> Usual | None:
    """What usually becomes of pieces of that name: by a note of our own, else by its row in the table."""
    have = stems(what)
    for note in NOTES:
        if any(set(stems(name)) <= set(have) for name in note.names):
            return note.usual
    row = pantry.meant(what)
    # A name that is only somewhat like a row's tells nothing of what lasts.
    if row is None or not row.breakdown or not holds(have, stems(row.name)[:1]):
        return None
    return Usual(SPEEDS[row.breakdown], TABLE)


def what_to_do(over: Over, stack: Stack) -> str:
    """Break it up, leave the next ones out, or let it go round: none of them does harm."""
    if over.turns >= MANY_TURNS:
        return (
            "Break it up, or pick it out for good; and leave the next ones out, or cut them small first. "
            f"It has gone round {over.turns} times, and does no harm if it goes on."
        )
    if over.size_cm is not None and over.size_cm > 5:
        return "Break it up before it goes on: small pieces go sooner. Left whole it does no harm."
    return "Let it go on round: it does no harm, and feeds what lives on slow food."
