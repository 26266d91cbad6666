"""A separation logged after the fact: the same entries as the guided one writes, without its timers."""

from __future__ import annotations

from trayturn.cli.desk import Desk
from trayturn.cli.parsing import Refused
from trayturn.domain.entries import Amount, Entry, StepStarted
from trayturn.domain.stack import Separation
from trayturn.domain.words import listed
from trayturn.procedure import separation


def begun(desk: Desk) -> list[Entry]:
    """The tray set on top, and its first step started."""
    tray = desk.tray(desk.typed.tray) or ""
    return [desk.entry("separation_begun", tray=tray), *separation.begin(tray, desk.at)[1:]]


def pass_done(desk: Desk) -> list[Entry]:
    """A pass after the fact. It takes the next number where the one under way is in the record already."""
    typed, running = desk.typed, _under_way(desk)
    numbers = {done.pass_number for done in running.passes}
    number = running.pass_number if running.pass_number not in numbers else max(numbers) + 1
    done = desk.entry(
        "pass_done",
        tray=running.tray,
        pass_number=number,
        worms_seen=typed.worms.lower(),
        skimmed_kg=desk.mass("skimmed", "--skimmed"),
        overs=typed.overs,
        contaminants=typed.contaminants,
    )
    steps = separation.skimmed(running, separation.Skim(Amount.NONE), desk.at)[1:]
    renumbered = [
        e.model_copy(update={"pass_number": number}) if isinstance(e, StepStarted) else e for e in steps
    ]
    return [done, *renumbered]


def settled(desk: Desk) -> list[Entry]:
    """Where everything went. Cleaning up is what is left."""
    typed, running = desk.typed, _under_way(desk)
    done = desk.entry(
        "settled",
        tray=running.tray,
        castings_kg=desk.mass("castings", "--castings"),
        worms_to=typed.worms_to,
        rest_to=typed.rest_to,
        overs_to=typed.overs_to,
    )
    return [done, *separation.settle(running, separation.Settling(), desk.at)[1:]]


def ended(desk: Desk) -> list[Entry]:
    """The separation over, with the step that was under way."""
    end = separation.put_back if desk.typed.put_back else separation.finish
    return desk.noted(end(_under_way(desk), desk.at), "separation_ended")


def _under_way(desk: Desk) -> Separation:
    """The separation of the tray typed, or the only one under way. Raises `Refused`."""
    running = desk.stack.separations
    tray = desk.tray(desk.typed.tray)
    found = [one for one in running if tray in (None, one.tray)]
    if len(found) == 1:
        return found[0]
    if found:
        raise Refused(f"Name the tray: {listed(one.tray for one in running)} are being separated.")
    whose = f" of tray {tray}" if tray else ""
    raise Refused(
        f"No separation{whose} was under way at that time. Begin one with: log BIN separation-begun TRAY."
    )
