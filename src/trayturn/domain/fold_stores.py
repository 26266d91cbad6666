"""How entries about worms, supplies and cautions change the bin's stores."""

from __future__ import annotations

from trayturn.domain.entries import (
    CautionsRead,
    SuppliesAdded,
    SuppliesCounted,
    SuppliesUsed,
    WormsAdded,
    WormsRemoved,
)
from trayturn.domain.ledger import Ledger


def worms_added(ledger: Ledger, entry: WormsAdded) -> None:
    """Worms in: what was put in and taken out by weight, not what has grown since."""
    ledger.worms_kg = (ledger.worms_kg or 0.0) + entry.worms_kg
    ledger.first_worms_at = ledger.first_worms_at or entry.at


def worms_removed(ledger: Ledger, entry: WormsRemoved) -> None:
    """Worms out. More may leave than came in, since they breed: the recorded balance stops at nothing."""
    if ledger.worms_kg is not None:
        ledger.worms_kg = max(0.0, ledger.worms_kg - entry.worms_kg)


def supplies_added(ledger: Ledger, entry: SuppliesAdded) -> None:
    """Stock in; from now on this supply is counted."""
    ledger.stores.add(entry.supplies_kg, entry.at)


def supplies_used(ledger: Ledger, entry: SuppliesUsed) -> None:
    """Stock out."""
    ledger.find_short(ledger.stores.take(entry.supplies_kg, entry.at))
    ledger.stores.uses.append(entry)


def supplies_counted(ledger: Ledger, entry: SuppliesCounted) -> None:
    """What was counted is the stock, whatever was reckoned before."""
    ledger.stores.count(entry.supplies_kg, entry.at)
    ledger.supplies_counted_at = entry.at


def cautions_read(ledger: Ledger, entry: CautionsRead) -> None:
    """The latest time each caution was ticked."""
    ledger.cautions_read.update(dict.fromkeys(entry.codes, entry.at))
