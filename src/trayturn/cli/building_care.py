"""From what was typed to the entries of ordinary weeks."""

from __future__ import annotations

from trayturn.cli import amounts
from trayturn.cli.desk import Desk
from trayturn.cli.parsing import Refused, read_moment
from trayturn.domain.entries import Entry


def follow_up_set(desk: Desk) -> list[Entry]:
    typed = desk.typed
    due = read_moment(typed.by, "--by")
    fields = {"code": typed.code, "what": " ".join(typed.text), "due": due, "why": typed.why}
    return [desk.entry("follow_up_set", tray=desk.tray(typed.tray), **fields)]


def snoozed(desk: Desk) -> list[Entry]:
    until = read_moment(desk.typed.until, "--until")
    if until <= desk.at:
        raise Refused("--until has to be later than now: nothing would be put off.")
    return [desk.entry("snoozed", item=desk.typed.item, until=until)]


def done(desk: Desk) -> list[Entry]:
    return [desk.entry("done", item=desk.typed.item)]


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
