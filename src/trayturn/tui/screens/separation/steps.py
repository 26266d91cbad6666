"""What each step of a separation asks, and what its answers write. Pure but for the rows they are put in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.cautions import cautions_for
from trayturn.advice.passes import Ahead, advised_to_stop, ahead, empty_kg, rest_option
from trayturn.domain.entries import Amount, CautionsRead, Checked, Entry, PassDone, Step, StepStarted
from trayturn.domain.stack import Separation, Stack
from trayturn.procedure import separation as moves
from trayturn.procedure.separation import answered_before, answered_with
from trayturn.tui.screens.separation import settling
from trayturn.tui.screens.separation.found import piece_rows, pieces_in, thing_rows, things_in
from trayturn.tui.screens.separation.rows import RestRow
from trayturn.tui.screens.separation.settling import Away
from trayturn.tui.screens.separation.weights import kg_in, mass_row
from trayturn.tui.widgets.answer_rows import Answer, Pick, Tick, Words

SEEN = (Amount.NONE, Amount.FEW, Amount.MANY)

Mark = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class LeftOff:
    """The answers of a step as they stood when the screen was left."""

    mark: Mark | None
    answers: Sequence[Answer]


def mark(sep: Separation | None) -> Mark | None:
    """What tells one step from another."""
    if sep is None:
        return None
    return (sep.begun_at, sep.step.started_at, sep.step.step) if sep.step else (sep.begun_at,)


def questions(
    stack: Stack, sep: Separation, journal: Sequence[Entry], others: Mapping[str, Stack]
) -> list[Answer]:
    """The rows of the step under way. What was answered before going back from it stands in them again.

    `others` are the bins that worms can go to, by short name.
    """
    step = sep.step.step if sep.step else None
    if step is Step.GET_READY:
        return _get_ready(stack, sep, journal)
    if step is Step.SKIM:
        return _skim(stack, sep, journal)
    if step is Step.DECIDE:
        return _decide(stack, sep, journal)
    if step is Step.SETTLE:
        return settling.settle_rows(stack, sep, journal, others)
    return []


def _get_ready(stack: Stack, sep: Separation, journal: Sequence[Entry]) -> list[Answer]:
    read, weighed = answered_before(journal, sep, CautionsRead), answered_before(journal, sep, Checked)
    ticked = read.codes if read is not None else ()
    ticks = [
        Tick(c.code, c.title, c.to_do, c.code in ticked, f"{c.why} ({c.source})")
        for c in cautions_for("separation")
    ]
    gross_kg = weighed.gross_kg if weighed is not None else sep.gross_kg
    return [*ticks, mass_row(stack.setup, "gross", "Tray weighs", gross_kg)]


def _skim(stack: Stack, sep: Separation, journal: Sequence[Entry]) -> list[Answer]:
    before = answered_before(journal, sep, PassDone)
    seen = SEEN.index(before.worms_seen) if before is not None else None
    skimmed_kg = before.skimmed_kg if before is not None else None
    return [
        Pick("seen", "Worms seen", "", tuple(SEEN), seen),
        mass_row(stack.setup, "skimmed", "Skimmed", skimmed_kg, fine=True),
        *piece_rows(stack, sep, before.pieces if before is not None else (), len(sep.passes)),
        *thing_rows(answered_with(journal, before)),
        Words("note", "Anything else", "In your own words. Enter types.", before.note if before else ""),
    ]


def _decide(stack: Stack, sep: Separation, journal: Sequence[Entry]) -> list[Answer]:
    stops, _ = advised_to_stop(sep, empty_kg(stack, sep.tray))
    return [
        Pick("choice", "Now", "", ("one more pass", "stop here"), 1 if stops else 0),
        _rest(stack, sep, journal),
    ]


def _rest(stack: Stack, sep: Separation, journal: Sequence[Entry]) -> RestRow:
    """The rest of the next pass: as the bin has it, as advised, or as chosen last time."""
    told = ahead(stack, sep)
    chosen = _rest_chosen(sep, journal) or told.rest_as_set
    minutes = tuple(dict.fromkeys((told.rest_as_set, told.rest_advised, chosen)))
    options = tuple(f"{rest_option(one)}, {_whose(one, told)}" for one in minutes)
    return RestRow("rest", "Next rest", "- and + choose.", options, minutes.index(chosen), minutes)


def _whose(minutes: float, told: Ahead) -> str:
    known = {"as set": told.rest_as_set, "as advised": told.rest_advised}
    return " and ".join(words for words, rest in known.items() if rest == minutes) or "as last time"


def _rest_chosen(sep: Separation, journal: Sequence[Entry]) -> float | None:
    """The rest chosen before going back from the next pass, else that of the pass just done."""
    for entry in reversed(journal):
        if not isinstance(entry, StepStarted) or entry.tray != sep.tray or entry.at < sep.begun_at:
            continue
        if entry.step is Step.LOOSEN and entry.pass_number in (sep.pass_number, sep.pass_number + 1):
            return entry.rest_minutes
    return None


def tidied(stack: Stack, sep: Separation | None, answers: Sequence[Answer]) -> list[Answer]:
    """The rows as what is chosen asks for."""
    settles = sep is not None and sep.step is not None and sep.step.step is Step.SETTLE
    return settling.tidied(answers, stack) if settles else list(answers)


def lacks_weight(sep: Separation, answers: Sequence[Answer]) -> bool:
    """Whether this step would end without the weight of the castings, which no one can tell later."""
    given = {answer.key: answer for answer in answers}
    return sep.step is not None and sep.step.step is Step.SETTLE and kg_in(given, "castings") is None


def done(stack: Stack, sep: Separation, answers: Sequence[Answer], now: datetime) -> list[Entry] | Away | str:
    """What finishing the step writes, or the sentence that says what is still missing."""
    setup = stack.setup
    given = {answer.key: answer for answer in answers}
    step = sep.step.step if sep.step else None
    if step is Step.GET_READY:
        codes = [a.key for a in answers if isinstance(a, Tick) and a.ticked]
        return moves.ready(sep, setup, now, kg_in(given, "gross"), codes)
    if step is Step.LOOSEN:
        return moves.loosened(sep, setup, now)
    if step is Step.REST:
        return moves.rested(sep, now)
    if step is Step.SKIM:
        return _skimmed(sep, given, now)
    if step is Step.DECIDE:
        return _decided(stack, sep, given, now)
    if step is Step.SETTLE:
        return settling.settled(stack, sep, given, now)
    return moves.finish(sep, now)


def _skimmed(sep: Separation, given: Mapping[str, Answer], now: datetime) -> list[Entry] | str:
    seen, note = given.get("seen"), given.get("note")
    if not isinstance(seen, Pick) or seen.chosen is None:
        return "How many worms came off with it? Press 1, 2 or 3."
    skim = moves.Skim(
        SEEN[seen.chosen],
        kg_in(given, "skimmed"),
        pieces=pieces_in(given.values()),
        found=things_in(given.values()),
        note=note.text if isinstance(note, Words) else "",
    )
    return moves.skimmed(sep, skim, now)


def _decided(stack: Stack, sep: Separation, given: Mapping[str, Answer], now: datetime) -> list[Entry]:
    choice, rest = given.get("choice"), given.get("rest")
    if isinstance(choice, Pick) and choice.chosen == 1:
        return moves.stop(sep, now)
    minutes = rest.rest if isinstance(rest, RestRow) else stack.setup.rest_minutes
    return moves.again(sep, stack.setup, now, None if minutes == stack.setup.rest_minutes else minutes)
