"""How a separation's entries change the stack: the tray on top, its steps, its passes, where it all went."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from trayturn.domain.entries import (
    DeadlineMoved,
    Entry,
    Outcome,
    PassDone,
    SeparationBegun,
    SeparationEnded,
    Settled,
    Stage,
    StepEnded,
    StepStarted,
)
from trayturn.domain.fold_pieces import let_go
from trayturn.domain.ledger import WRONG_TRAY, Ledger
from trayturn.domain.stack import CameOut, Harvest, Separation, StepTimes


def separation_begun(ledger: Ledger, entry: SeparationBegun) -> None:
    """The tray is set on top of the stack; the trays under it close up."""
    if entry.tray in ledger.separations:
        ledger.find("separation-twice", f"Tray {entry.tray} is being separated already.")
        return
    if not ledger.on_stack(entry.tray):
        ledger.find("separated-off-stack", f"Tray {entry.tray} is not on the stack.", WRONG_TRAY)
        return
    level = ledger.order.index(entry.tray) + 1
    ledger.order.remove(entry.tray)
    ledger.order.append(entry.tray)
    ledger.trays[entry.tray].enter(Stage.SEPARATING, entry.at)
    ledger.separations[entry.tray] = Separation(entry.tray, entry.at, level)


def _running(ledger: Ledger, tray_id: str) -> Separation | None:
    """The tray's separation, or a finding that there is none."""
    if tray_id not in ledger.separations:
        ledger.find("no-separation", f"No separation of tray {tray_id} is under way.", WRONG_TRAY)
    return ledger.separations.get(tray_id)


def step_started(ledger: Ledger, entry: StepStarted) -> None:
    """A step begins. One still open is closed at this moment: only one step of a tray runs at a time."""
    if (running := _running(ledger, entry.tray)) is None:
        return
    planned = entry.ends_at - entry.at if entry.ends_at else None
    if entry.ends_at and entry.ends_at < entry.at:
        ledger.find("ends-before-start", f"The step {entry.step} ends before it begins.", "Correct ends_at.")
    step = StepTimes(
        entry.step, entry.pass_number, entry.at, entry.ends_at, planned, rest_minutes=entry.rest_minutes
    )
    steps = (*_close(running.steps, entry.at), step)
    ledger.separations[entry.tray] = replace(running, steps=steps)


def step_ended(ledger: Ledger, entry: StepEnded) -> None:
    """The step under way is done."""
    if (running := _running(ledger, entry.tray)) is None:
        return
    if running.step is None or running.step.step is not entry.step:
        ledger.find("step-not-open", f"The step {entry.step} of tray {entry.tray} was not under way.")
        return
    ledger.separations[entry.tray] = replace(running, steps=_close(running.steps, entry.at))


def _close(steps: tuple[StepTimes, ...], at: datetime) -> tuple[StepTimes, ...]:
    if not steps or steps[-1].ended_at is not None:
        return steps
    return (*steps[:-1], replace(steps[-1], ended_at=at))


def deadline_moved(ledger: Ledger, entry: DeadlineMoved) -> None:
    """The timed step under way ends at another moment."""
    if (running := _running(ledger, entry.tray)) is None:
        return
    if running.step is None or running.step.ends_at is None:
        ledger.find("no-deadline", f"Tray {entry.tray} has no timed step under way.")
        return
    steps = (*running.steps[:-1], replace(running.step, ends_at=entry.ends_at))
    ledger.separations[entry.tray] = replace(running, steps=steps)


def pass_done(ledger: Ledger, entry: PassDone) -> None:
    """A pass is finished and stands in the record."""
    if (running := _running(ledger, entry.tray)) is None:
        return
    if any(done.pass_number == entry.pass_number for done in running.passes):
        ledger.find(
            "pass-twice", f"Pass {entry.pass_number} of tray {entry.tray} stands twice.", "The first counts."
        )
        return
    ledger.separations[entry.tray] = replace(running, passes=(*running.passes, entry))


def settled(ledger: Ledger, entry: Settled) -> None:
    """Worms, the rest and the overs have found their place; weighed castings count as a harvest."""
    if (running := _running(ledger, entry.tray)) is None:
        return
    if running.settled is not None:
        ledger.find("settled-twice", f"Tray {entry.tray} was settled already.", "The first counts.")
        return
    ledger.separations[entry.tray] = replace(running, settled=entry)
    if entry.castings_kg is not None:
        ledger.harvests.append(Harvest(entry.tray, entry.at, entry.castings_kg))


def came_out(ledger: Ledger, entry: Entry) -> None:
    """What is written of a tray while it is separated came out of that separation."""
    if ledger.separations and isinstance(entry, CameOut) and entry.tray in ledger.separations:
        running = ledger.separations[entry.tray]
        ledger.separations[entry.tray] = replace(running, came_out=(*running.came_out, entry))


def separation_ended(ledger: Ledger, entry: SeparationEnded) -> None:
    """The tray is empty and spare, and its life over; or it goes back to its level to finish longer."""
    if (running := _running(ledger, entry.tray)) is None:
        return
    del ledger.separations[entry.tray]
    done = replace(running, steps=_close(running.steps, entry.at), ended_at=entry.at, outcome=entry.outcome)
    ledger.past_separations.append(done)
    tray = ledger.record(entry.tray, entry.at)
    tray.separations.append(done)
    if entry.outcome is Outcome.FINISHED:
        ledger.lives.append(tray.life(entry.at))
        let_go(ledger, entry.tray, entry.at)
        ledger.take_off(entry.tray, entry.at)
        return
    ledger.order.remove(entry.tray)
    still_on_top = len(ledger.separations)
    place = min((running.came_from_level or 1) - 1, len(ledger.order) - still_on_top)
    ledger.order.insert(place, entry.tray)
    tray.enter(Stage.FINISHING, entry.at)
