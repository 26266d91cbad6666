"""From the ledger that a journal was folded into to the stack that is shown."""

from __future__ import annotations

from datetime import datetime

from trayturn.domain.ledger import Ledger
from trayturn.domain.stack import Stack


def freeze(ledger: Ledger, as_of: datetime) -> Stack:
    """The stack as the ledger has it, as of a moment."""
    profile = ledger.profile
    levels = {tray_id: level for level, tray_id in enumerate(ledger.order, 1)}
    states = [
        record.state(levels.get(tray_id), profile.empty_kg(tray_id), as_of)
        for tray_id, record in ledger.trays.items()
    ]
    on_stack = sorted((s for s in states if s.level is not None), key=lambda s: s.level or 0)
    return Stack(
        key=profile.key,
        setup=profile.bin,
        as_of=as_of,
        trays=tuple(on_stack),
        off_stack=tuple(s for s in states if s.level is None),
        sump=ledger.sump,
        separations=tuple(ledger.separations.values()),
        past_separations=tuple(ledger.past_separations),
        lives=tuple(ledger.lives),
        harvests=tuple(ledger.harvests),
        first_tray_at=ledger.first_tray_at,
        last_turn_at=ledger.last_turn_at,
        turns=ledger.turns,
        last_fed_at=ledger.last_fed_at,
        last_check_at=ledger.last_check_at,
        temperature_c=ledger.temperature_c,
        temperature_at=ledger.temperature_at,
        smelled=ledger.smelled,
        worms_kg=ledger.worms_kg,
        first_worms_at=ledger.first_worms_at,
        supplies_kg=ledger.stores.supplies_kg,
        supplies_counted_at=ledger.supplies_counted_at,
        supplies=ledger.stores.frozen(),
        last_feedings=tuple(ledger.stores.feedings),
        last_starts=tuple(ledger.stores.starts),
        last_uses=tuple(ledger.stores.uses),
        left_out_at=ledger.left_out_at,
        cautions_read=dict(ledger.cautions_read),
        follow_ups=dict(ledger.follow_ups),
        snoozed=dict(ledger.snoozed),
        done=dict(ledger.done),
        measures=tuple(ledger.measures.values()),
        meals=tuple(ledger.meals.values()),
        caddy_kg=dict(ledger.caddy_kg),
        caddy_at=ledger.caddy_at,
        turn_day=ledger.turn_day,
        past_turn_days=tuple(ledger.past_turn_days),
        overs=tuple(ledger.overs.values()),
        overs_gone=tuple(ledger.overs_gone),
        found=tuple(ledger.found),
        sources_stopped=dict(ledger.sources_stopped),
        lots=tuple(ledger.lots.values()),
        findings=tuple(ledger.findings),
        listed_trays=tuple(tray.id for tray in profile.trays),
    )
