"""How entries about trays change the stack: started, fed, checked, turned."""

from __future__ import annotations

from dataclasses import replace

from trayturn.domain.entries import Checked, Fed, Stage, TrayStarted, Turned
from trayturn.domain.fold_pieces import let_go
from trayturn.domain.ledger import WRONG_TRAY, Ledger, TrayRecord, pour
from trayturn.domain.problems import Severity
from trayturn.domain.setup import Pattern
from trayturn.domain.stack import Sump
from trayturn.domain.supplies import gathered, used_by

STANDING = (Stage.BEDDING, Stage.FEEDING, Stage.FINISHING)


def tray_started(ledger: Ledger, entry: TrayStarted) -> None:
    """A tray enters: at the level named, or where the bin's pattern has fresh trays enter."""
    if ledger.on_stack(entry.tray):
        ledger.find("started-twice", f"Tray {entry.tray} is on the stack already.", WRONG_TRAY)
        return
    level = _entry_level(ledger, entry)
    ledger.order.insert(level - 1, entry.tray)
    stage = Stage(entry.stage) if entry.stage else Stage.BEDDING
    record = TrayRecord(entry.tray, stage, entry.at, entry.at, water_kg=entry.water_kg or 0.0, start=entry)
    pour(record.bedding_kg, entry.bedding_kg)
    ledger.open(record)
    ledger.left_out_at = None
    if not entry.came_from:
        ledger.find_short(ledger.stores.take_stocked(entry.bedding_kg, entry.at))
        ledger.stores.starts.append(entry)


def _entry_level(ledger: Ledger, entry: TrayStarted) -> int:
    height = len(ledger.order)
    below_separating = height - len(ledger.separations)
    usual = 1 if ledger.profile.bin.pattern is Pattern.BEDDING_BELOW else below_separating + 1
    if entry.level is None:
        return usual
    if entry.level > height + 1:
        ledger.find("level-in-the-air", f"Level {entry.level} is in the air.", f"It counts as {height + 1}.")
        return height + 1
    if entry.level <= height and entry.level != usual:
        held = ledger.order[entry.level - 1]
        ledger.find(
            "two-on-one-level",
            f"Level {entry.level} already holds tray {held}.",
            f"Tray {held} and those above it count as lifted by one.",
            Severity.WARNING,
        )
    return entry.level


def fed(ledger: Ledger, entry: Fed) -> None:
    """A feeding: it makes a bedding tray the feeding tray, and takes what it used from the stock."""
    if not ledger.on_stack(entry.tray):
        left = entry.tray in ledger.trays
        what = "was fed after it left the stack." if left else "was fed before it was started."
        ledger.find("fed-off-stack", f"Tray {entry.tray} {what}", WRONG_TRAY)
        return
    tray = ledger.trays[entry.tray]
    if tray.stage is Stage.BEDDING:
        tray.enter(Stage.FEEDING, entry.at)
    elif tray.stage is not Stage.FEEDING:
        ledger.find(
            "fed-late",
            f"Tray {entry.tray} was fed while {tray.stage}.",
            "It will finish later.",
            Severity.WARNING,
        )
    tray.feedings += 1
    tray.meals.append(entry)
    pour(tray.scraps_kg, entry.items_kg)
    pour(tray.bedding_kg, entry.bedding_kg)
    tray.grit_kg += entry.grit_kg or 0.0
    tray.water_kg += entry.water_kg or 0.0
    tray.last_fed_at = ledger.last_fed_at = entry.at
    _draw_meal(ledger, entry)


def _draw_meal(ledger: Ledger, entry: Fed) -> None:
    """Bedding and grit leave the stock; scraps do where they are kept in stock, as coffee grounds may be."""
    used = used_by(entry)
    pour(used, {name: kg for name, kg in gathered(entry.items_kg).items() if name in ledger.stores.shelves})
    ledger.find_short(ledger.stores.take_stocked(used, entry.at))
    ledger.stores.feedings.append(entry)


def checked(ledger: Ledger, entry: Checked) -> None:
    """Readings stand beside what is reckoned and change no amount."""
    ledger.last_check_at = entry.at
    if entry.sump_l is not None:
        ledger.sump = Sump(entry.sump_l, entry.at)
    if entry.temperature_c is not None:
        ledger.temperature_c, ledger.temperature_at = entry.temperature_c, entry.at
    if entry.smell:
        ledger.smelled = entry
    if entry.tray is None:
        return
    if entry.tray not in ledger.trays:
        ledger.find("checked-unknown", f"Tray {entry.tray} was not started by then.", WRONG_TRAY)
        return
    tray = ledger.trays[entry.tray]
    tray.last_check = entry
    if entry.moisture_pct is not None or entry.feel is not None:
        tray.last_moisture = entry
    if entry.gross_kg is not None:
        tray.gross_kg, tray.weighed_at = entry.gross_kg, entry.at
        _weigh_for_separation(ledger, entry)


def _weigh_for_separation(ledger: Ledger, entry: Checked) -> None:
    """What a separation starts from is the tray's first weight after it was set on top."""
    running = ledger.separations.get(entry.tray or "")
    if running is not None and running.gross_kg is None:
        ledger.separations[running.tray] = replace(running, gross_kg=entry.gross_kg)


def turned(ledger: Ledger, entry: Turned) -> None:
    """The new order stands; stages follow the entry, or the usual rule of a turn."""
    order = _without_twins(ledger, entry)
    for tray_id in [t for t in ledger.order if t not in order and t not in ledger.separations]:
        let_go(ledger, tray_id, entry.at)
        ledger.take_off(tray_id, entry.at)
    for tray_id in order:
        if not ledger.on_stack(tray_id):
            ledger.find(
                "turned-unstarted",
                f"Tray {tray_id} came in without being started.",
                "It counts as fresh bedding of unknown mass; add the entry that started it.",
                Severity.WARNING,
            )
            ledger.open(TrayRecord(tray_id, Stage.BEDDING, entry.at, entry.at))
    ledger.order = order + [t for t in ledger.order if t in ledger.separations and t not in order]
    _enter_stages(ledger, entry, order)
    ledger.last_turn_at = entry.at
    ledger.left_out_at = entry.at if entry.no_fresh else ledger.left_out_at
    ledger.turns += 1


def _without_twins(ledger: Ledger, entry: Turned) -> list[str]:
    order = list(dict.fromkeys(entry.order))
    for tray_id in order:
        if entry.order.count(tray_id) > 1:
            ledger.find("tray-on-two-levels", f"Tray {tray_id} stands on two levels.", "The lower counts.")
    return order


def _enter_stages(ledger: Ledger, entry: Turned, order: list[str]) -> None:
    standing = [t for t in order if t not in ledger.separations]
    _check_stages(ledger, entry, standing)
    for tray_id in standing:
        tray = ledger.trays[tray_id]
        if entry.stages.get(tray_id) in STANDING:
            tray.enter(entry.stages[tray_id], entry.at)
        elif tray_id == standing[-1] and not entry.stages:
            tray.enter(Stage.FEEDING, entry.at)
        elif tray.stage is Stage.FEEDING and not entry.stages:
            tray.enter(Stage.FINISHING, entry.at)


def _check_stages(ledger: Ledger, entry: Turned, standing: list[str]) -> None:
    for tray_id, stage in entry.stages.items():
        if tray_id not in standing:
            why = "is being separated" if tray_id in ledger.separations else "is not in the new order"
            ledger.find(
                "stage-off-stack", f"Tray {tray_id} is given a stage and {why}.", "The stage is left out."
            )
        elif stage not in STANDING:
            ledger.find("stage-not-by-turn", f"No turn makes tray {tray_id} {stage}.", "It keeps its stage.")
