"""What each step of a separation asks, and what its answers write. Pure but for the rows they are put in."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from trayturn.advice.cautions import cautions_for
from trayturn.domain.entries import Amount, Entry, Stage, Step
from trayturn.domain.setup import BinSetup, Units
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.units import OUNCE_KG, POUND_KG
from trayturn.procedure import separation as moves
from trayturn.tui.widgets.answers import Answer, Cycle, Mass, Pick, Tick, Words

SEEN = (Amount.NONE, Amount.FEW, Amount.MANY)
TYPED = "- and + step it, Enter types it; leave it if you did not weigh."


def questions(stack: Stack, sep: Separation) -> list[Answer]:
    """The rows of the step under way."""
    step = sep.step.step if sep.step else None
    if step is Step.GET_READY:
        return _get_ready(stack, sep)
    if step is Step.SKIM:
        return _skim(stack.setup)
    if step is Step.DECIDE:
        return _decide(stack, sep)
    if step is Step.SETTLE:
        return _settle(stack, sep)
    return []


def _mass(setup: BinSetup, key: str, label: str, kg: float | None = None, *, fine: bool = False) -> Mass:
    us = setup.units is Units.US
    if fine:
        return Mass(key, label, TYPED, kg, 4 * OUNCE_KG if us else 0.1, us)
    return Mass(key, label, TYPED, kg, POUND_KG if us else 0.5, us)


def _get_ready(stack: Stack, sep: Separation) -> list[Answer]:
    ticks = [Tick(caution.code, caution.title, caution.to_do) for caution in cautions_for("separation")]
    return [*ticks, _mass(stack.setup, "gross", "Tray weighs", sep.gross_kg)]


def _skim(setup: BinSetup) -> list[Answer]:
    return [
        Pick("seen", "Worms seen", "", tuple(SEEN)),
        _mass(setup, "skimmed", "Skimmed", fine=True),
        Words("overs", "Overs", "Pieces too big to pass, carried on to the next tray. Enter types."),
        Words("contaminants", "Contaminants", "What does not belong: stickers, tape, plastic. Enter types."),
    ]


def _decide(stack: Stack, sep: Separation) -> list[Answer]:
    tray = stack.tray(sep.tray)
    stops, _ = moves.advised_to_stop(sep, tray.empty_kg if tray else stack.setup.tray_empty_kg)
    return [Pick("choice", "", "", ("one more pass", "stop here"), 1 if stops else 0)]


def _settle(stack: Stack, sep: Separation) -> list[Answer]:
    feeding = [t.id for t in stack.in_stage(Stage.FEEDING)]
    others = [t.id for t in reversed(stack.trays) if t.id not in (sep.tray, *feeding)]
    trays = tuple(f"tray {tray_id}" for tray_id in (*feeding, *others))
    places = (*trays, "another bin", "the garden compost")
    weighed = sep.skimmed_kg if all(done.skimmed_kg for done in sep.passes) else None
    return [
        _mass(stack.setup, "castings", "Castings", weighed or None, fine=True),
        Cycle("worms", "Worms to", "", places, 0),
        Cycle("rest", "The rest to", "", places, 0),
        Cycle("overs", "Overs to", "", (*places, "there were none"), 0),
    ]


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
