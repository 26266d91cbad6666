"""From what was typed to the entries of ordinary weeks."""

from __future__ import annotations

from trayturn.advice.due import Due, due_list
from trayturn.advice.due.keepers_word import mark_done
from trayturn.cli import amounts
from trayturn.cli.desk import Desk
from trayturn.cli.parsing import Refused, read_moment
from trayturn.domain.entries import Entry
from trayturn.domain.words import clean, listed


def follow_up_set(desk: Desk) -> list[Entry]:
    typed = desk.typed
    due = read_moment(typed.by, "--by")
    fields = {"code": typed.code, "what": " ".join(typed.text), "due": due, "why": typed.why}
    return [desk.entry("follow_up_set", tray=desk.tray(typed.tray), **fields)]


def _due(desk: Desk) -> Due:
    """What is due at the bin under that item, in whatever case it was typed. Raises `Refused` for another."""
    due = due_list(desk.stack)
    wanted = desk.typed.item.casefold()
    found = next((one for one in due if one.item.casefold() == wanted), None)
    if found is None:
        known = listed(one.item for one in due)
        raise Refused(f"{clean(desk.typed.item, 60)!r} is not due or coming up. What is: {known}.")
    return found


def snoozed(desk: Desk) -> list[Entry]:
    until = read_moment(desk.typed.until, "--until")
    if until <= desk.at:
        raise Refused("--until has to be later than now: nothing would be put off.")
    due = _due(desk)
    if not due.can_wait:
        raise Refused(f"A separation that is under way cannot be put off: {due.what}")
    return [desk.entry("snoozed", item=due.item, until=until)]


def done(desk: Desk) -> list[Entry]:
    due = _due(desk)
    if not due.done_by_word:
        raise Refused(f"{due.item} is done by writing down what was done, such as fed or checked.")
    return [desk.entry("done", item=due.item, due=mark_done(due, desk.at).due)]


def measure_set(desk: Desk) -> list[Entry]:
    typed = desk.typed
    kg = desk.mass("amount", "the amount")
    return [desk.entry("measure_set", measure=typed.measure.strip().lower(), kg=kg, of=typed.of)]


def meal_kept(desk: Desk) -> list[Entry]:
    typed = desk.typed
    items = amounts.masses(typed.items, "the scraps", desk.units)
    bedding = amounts.masses(typed.bedding, "--bedding", desk.units)
    grit = desk.mass("grit", "--grit")
    if not items and not bedding and grit is None:
        raise Refused('A meal needs something in it, such as "cabbage=500 g".')
    return [desk.entry("meal_kept", name=typed.name, items_kg=items, bedding_kg=bedding, grit_kg=grit)]


def meal_dropped(desk: Desk) -> list[Entry]:
    return [desk.entry("meal_dropped", name=desk.typed.name)]


def put_off(desk: Desk) -> list[Entry]:
    return [desk.entry("put_off", items_kg=amounts.masses(desk.typed.items, "the scraps", desk.units))]
