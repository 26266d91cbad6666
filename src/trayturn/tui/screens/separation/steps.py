"""What each step of a separation asks, and what its answers write. Pure but for the rows they are put in."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from trayturn.advice.cautions import cautions_for
from trayturn.domain.entries import Amount, CautionsRead, Checked, Entry, PassDone, Settled, Stage, Step
from trayturn.domain.setup import BinSetup, Units
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.units import OUNCE_KG, POUND_KG
from trayturn.procedure import separation as moves
from trayturn.procedure.separation import answered_before
from trayturn.tui.widgets.answers import Answer, Cycle, Mass, Pick, Tick, Words

SEEN = (Amount.NONE, Amount.FEW, Amount.MANY)
TYPED = "- and + step it, Enter types it; leave it if you did not weigh."

Mark = tuple[object, ...]


def mark(sep: Separation | None) -> Mark | None:
    """What tells one step from another."""
    if sep is None:
        return None
    return (sep.begun_at, sep.step.started_at, sep.step.step) if sep.step else (sep.begun_at,)


def questions(stack: Stack, sep: Separation, journal: Sequence[Entry]) -> list[Answer]:
    """The rows of the step under way. What was answered before going back from it stands in them again."""
    step = sep.step.step if sep.step else None
    if step is Step.GET_READY:
        return _get_ready(
            stack, sep, answered_before(journal, sep, CautionsRead), answered_before(journal, sep, Checked)
        )
    if step is Step.SKIM:
        return _skim(stack.setup, answered_before(journal, sep, PassDone))
    if step is Step.DECIDE:
        return _decide(stack, sep)
    if step is Step.SETTLE:
        return _settle(stack, sep, answered_before(journal, sep, Settled))
    return []


def _mass(setup: BinSetup, key: str, label: str, kg: float | None = None, *, fine: bool = False) -> Mass:
    us = setup.units is Units.US
    if fine:
        return Mass(key, label, TYPED, kg, 4 * OUNCE_KG if us else 0.1, us)
    return Mass(key, label, TYPED, kg, POUND_KG if us else 0.5, us)


def _get_ready(
    stack: Stack, sep: Separation, read: CautionsRead | None, weighed: Checked | None
) -> list[Answer]:
    ticked = read.codes if read is not None else ()
    ticks = [
        Tick(c.code, c.title, c.to_do, c.code in ticked, f"{c.why} ({c.source})")
        for c in cautions_for("separation")
    ]
    gross_kg = weighed.gross_kg if weighed is not None else sep.gross_kg
    return [*ticks, _mass(stack.setup, "gross", "Tray weighs", gross_kg)]


def _skim(setup: BinSetup, before: PassDone | None) -> list[Answer]:
    seen = SEEN.index(before.worms_seen) if before is not None else None
    skimmed_kg = before.skimmed_kg if before is not None else None
    overs, contaminants = (before.overs, before.contaminants) if before is not None else ("", "")
    return [
        Pick("seen", "Worms seen", "", tuple(SEEN), seen),
        _mass(setup, "skimmed", "Skimmed", skimmed_kg, fine=True),
        Words("overs", "Overs", "Pieces too big to pass, carried on to the next tray. Enter types.", overs),
        Words(
            "contaminants", "Contaminants", "What does not belong: stickers, tape. Enter types.", contaminants
        ),
    ]


def _decide(stack: Stack, sep: Separation) -> list[Answer]:
    tray = stack.tray(sep.tray)
    stops, _ = moves.advised_to_stop(sep, tray.empty_kg if tray else stack.setup.tray_empty_kg)
    return [Pick("choice", "", "", ("one more pass", "stop here"), 1 if stops else 0)]


def _settle(stack: Stack, sep: Separation, before: Settled | None) -> list[Answer]:
    feeding = [t.id for t in stack.in_stage(Stage.FEEDING)]
    others = [t.id for t in reversed(stack.trays) if t.id not in (sep.tray, *feeding)]
    trays = tuple(f"tray {tray_id}" for tray_id in (*feeding, *others))
    places = (*trays, "another bin", "the garden compost")
    weighed = sep.skimmed_kg if all(done.skimmed_kg for done in sep.passes) else None
    castings_kg = before.castings_kg if before is not None else weighed or None
    return [
        _mass(stack.setup, "castings", "Castings", castings_kg, fine=True),
        _place("worms", "Worms to", places, before.worms_to if before else ""),
        _place("rest", "The rest to", places, before.rest_to if before else ""),
        _place("overs", "Overs to", (*places, "there were none"), before.overs_to if before else ""),
    ]


def _place(key: str, label: str, places: tuple[str, ...], before: str) -> Cycle:
    return Cycle(key, label, "", places, places.index(before) if before in places else 0)


def lacks_weight(sep: Separation, answers: Sequence[Answer]) -> bool:
    """Whether this step would end without the weight of the castings, which no one can tell later."""
    given = {answer.key: answer for answer in answers}
    return sep.step is not None and sep.step.step is Step.SETTLE and _kg(given, "castings") is None


def done(stack: Stack, sep: Separation, answers: Sequence[Answer], now: datetime) -> list[Entry] | str:
    """What finishing the step writes, or the sentence that says what is still missing."""
    setup = stack.setup
    given = {answer.key: answer for answer in answers}
    step = sep.step.step if sep.step else None
    if step is Step.GET_READY:
        codes = [a.key for a in answers if isinstance(a, Tick) and a.ticked]
        return moves.ready(sep, setup, now, _kg(given, "gross"), codes)
    if step is Step.LOOSEN:
        return moves.loosened(sep, setup, now)
    if step is Step.REST:
        return moves.rested(sep, now)
    if step is Step.SKIM:
        return _skimmed(sep, given, now)
    if step is Step.DECIDE:
        choice = given.get("choice")
        stops = isinstance(choice, Pick) and choice.chosen == 1
        return moves.stop(sep, now) if stops else moves.again(sep, setup, now)
    if step is Step.SETTLE:
        settling = moves.Settling(
            _kg(given, "castings"), _word(given, "worms"), _word(given, "rest"), _word(given, "overs")
        )
        return moves.settle(sep, settling, now)
    return moves.finish(sep, now)


def _skimmed(sep: Separation, given: dict[str, Answer], now: datetime) -> list[Entry] | str:
    seen = given.get("seen")
    if not isinstance(seen, Pick) or seen.chosen is None:
        return "How many worms came off with it? Press 1, 2 or 3."
    skim = moves.Skim(
        SEEN[seen.chosen], _kg(given, "skimmed"), _word(given, "overs"), _word(given, "contaminants")
    )
    return moves.skimmed(sep, skim, now)


def _kg(given: dict[str, Answer], key: str) -> float | None:
    answer = given.get(key)
    return answer.kg if isinstance(answer, Mass) else None


def _word(given: dict[str, Answer], key: str) -> str:
    answer = given.get(key)
    if isinstance(answer, Words):
        return answer.text
    return (answer.value or "") if isinstance(answer, Pick) else ""
