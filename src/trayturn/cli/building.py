"""From what was typed after `log BIN KIND` to journal entries."""

from __future__ import annotations

from collections.abc import Callable

from trayturn.advice.checking.plausible import cannot_be
from trayturn.advice.turning import next_turn, turn_entries
from trayturn.cli import amounts, building_after, building_care, building_separation
from trayturn.cli.desk import Desk
from trayturn.cli.parsing import Refused
from trayturn.domain.entries import Checked, Entry
from trayturn.domain.units import parse_temperature, parse_volume


def note(desk: Desk) -> list[Entry]:
    return [desk.entry("note", text=" ".join(desk.typed.text), tray=desk.tray(desk.typed.tray))]


def fed(desk: Desk) -> list[Entry]:
    typed = desk.typed
    items = amounts.masses(typed.items, "the scraps", desk.units)
    bedding = amounts.masses(typed.bedding, "--bedding", desk.units)
    grit, water = desk.mass("grit", "--grit"), amounts.water(typed.water, "--water", desk.units)
    if not items and not bedding and grit is None and water is None:
        raise Refused('A feeding needs something to feed, such as "cabbage=500 g".')
    fields = {"items_kg": items, "bedding_kg": bedding, "grit_kg": grit, "water_kg": water}
    return [desk.entry("fed", tray=desk.tray(typed.tray), **fields)]


def checked(desk: Desk) -> list[Entry]:
    """Readings, at least one. Raises `Refused`, as all of these do for a slip."""
    typed = desk.typed
    readings = {
        "moisture_pct": amounts.plain_number(typed.moisture, "--moisture", "%"),
        "feel": typed.feel and typed.feel.lower(),
        "temperature_c": amounts.read(parse_temperature, typed.temperature, "--temperature", desk.units),
        "ph": amounts.plain_number(typed.ph, "--ph", "ph"),
        "smell": typed.smell or None,
        "sump_l": amounts.read(parse_volume, typed.sump, "--sump", desk.units),
        "strays": typed.strays and typed.strays.lower(),
        "gross_kg": desk.mass("weight", "--weight"),
        "worms": typed.worms_seen and typed.worms_seen.lower(),
        "worms_kg": desk.mass("worms_weigh", "--worms-weigh"),
        "food_left_pct": amounts.plain_number(typed.food_left, "--food-left", "%"),
        "pests": [pest.strip().lower() for pest in typed.pests] or None,
    }
    if all(reading is None for reading in readings.values()):
        raise Refused("A check needs at least one reading, such as --moisture 70 or --feel damp.")
    check = desk.entry("checked", tray=desk.tray(typed.tray), **readings)
    assert isinstance(check, Checked)
    if (trouble := cannot_be(check, desk.stack)) is not None:
        raise Refused(trouble)
    return [check]


def started(desk: Desk) -> list[Entry]:
    """A tray put on the stack, with what fills it."""
    typed = desk.typed
    return [
        desk.entry(
            "tray_started",
            tray=desk.tray(typed.tray),
            bedding_kg=amounts.masses(typed.bedding, "--bedding", desk.units),
            water_kg=amounts.water(typed.water, "--water", desk.units),
            level=typed.level,
            stage=typed.stage and typed.stage.lower(),
            came_from=typed.came_from or None,
        )
    ]


def turned(desk: Desk) -> list[Entry]:
    """The order typed, or without one the usual turn of this stack."""
    typed = desk.typed
    if typed.trays:
        if typed.bedding:
            raise Refused(
                "--bedding goes with the usual turn. For an order of your own, log the fresh tray as started."
            )
        order = [desk.tray(name) for name in typed.trays]
        no_fresh = typed.no_fresh or None
        return [desk.entry("turned", order=order, stages=_stages(desk), no_fresh=no_fresh)]
    if typed.stage:
        raise Refused("--stage needs the new order too, such as: turned C A B --stage A=finishing.")
    bedding = amounts.masses(typed.bedding, "--bedding", desk.units)
    _can_go_without(desk)
    entries = turn_entries(desk.stack, desk.at, bedding, bring=not typed.no_fresh)
    if not entries:
        raise Refused("There is no usual turn to make of this stack; give the new order, bottom first.")
    return desk.noted(entries, "turned")


def _can_go_without(desk: Desk) -> None:
    """A fresh tray that would be fed at once cannot be left out. Raises `Refused`."""
    if not desk.typed.no_fresh:
        return
    if desk.typed.bedding:
        raise Refused("--bedding fills a fresh tray, and --no-fresh brings none in: leave one of them out.")
    turn = next_turn(desk.stack)
    if turn.fresh is not None and turn.fresh == turn.fed:
        raise Refused(
            f"No tray could be fed without tray {turn.fresh}. Put the turn off until there is bedding for it."
        )


def _stages(desk: Desk) -> dict[str, str]:
    stages = {}
    for pair in desk.typed.stage:
        tray, _, stage = pair.partition("=")
        if not stage:
            raise Refused(f"--stage: {pair[:40]!r} needs a tray and its stage, such as A=finishing.")
        stages[str(desk.tray(tray.strip()))] = stage.strip().lower()
    return stages


def worms_added(desk: Desk) -> list[Entry]:
    typed = desk.typed
    kg = desk.mass("amount", "the amount")
    fields = {"worms_kg": kg, "source": typed.source, "counted": typed.counted}
    return [desk.entry("worms_added", tray=desk.tray(typed.tray), **fields)]


def worms_removed(desk: Desk) -> list[Entry]:
    typed = desk.typed
    kg = desk.mass("amount", "the amount")
    fields = {"worms_kg": kg, "went_to": typed.to, "counted": typed.counted}
    return [desk.entry("worms_removed", tray=desk.tray(typed.tray), **fields)]


def supplies_added(desk: Desk) -> list[Entry]:
    return [
        desk.entry("supplies_added", supplies_kg=amounts.masses(desk.typed.items, "the supplies", desk.units))
    ]


def supplies_used(desk: Desk) -> list[Entry]:
    return [
        desk.entry("supplies_used", supplies_kg=amounts.masses(desk.typed.items, "the supplies", desk.units))
    ]


def supplies_counted(desk: Desk) -> list[Entry]:
    counted = amounts.masses(desk.typed.items, "the supplies", desk.units)
    return [desk.entry("supplies_counted", supplies_kg=counted)]


BUILDERS: dict[str, Callable[[Desk], list[Entry]]] = {
    "note": note,
    "fed": fed,
    "checked": checked,
    "started": started,
    "turned": turned,
    "worms-added": worms_added,
    "worms-removed": worms_removed,
    "supplies-added": supplies_added,
    "supplies-used": supplies_used,
    "supplies-counted": supplies_counted,
    "follow-up-set": building_care.follow_up_set,
    "snoozed": building_care.snoozed,
    "done": building_care.done,
    "measure-set": building_care.measure_set,
    "meal-kept": building_care.meal_kept,
    "meal-dropped": building_care.meal_dropped,
    "put-off": building_care.put_off,
    "overs-carried": building_after.overs_carried,
    "contaminant-found": building_after.contaminant_found,
    "source-stopped": building_after.source_stopped,
    "lot-begun": building_after.lot_begun,
    "lot-moved": building_after.lot_moved,
    "lure-set": building_after.lure_set,
    "hatchlings-recovered": building_after.hatchlings_recovered,
    "sieved": building_after.sieved,
    "packed": building_after.packed,
    "castings-used": building_after.castings_used,
    "castings-given": building_after.castings_given,
    "lot-closed": building_after.lot_closed,
    "separation-begun": building_separation.begun,
    "pass-done": building_separation.pass_done,
    "settled": building_separation.settled,
    "separation-ended": building_separation.ended,
}
