"""The settling: where castings, worms, the rest and the pieces go, as rows and as what they write."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from trayturn.advice.pieces import gathered
from trayturn.advice.splitting import weight_of, why_no_weight, worms_remark
from trayturn.domain.entries import (
    Entry,
    LotBegun,
    LotStage,
    OversCarried,
    Piece,
    Settled,
    Stage,
    WormsRemoved,
)
from trayturn.domain.lots import next_code
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.supplies import fold
from trayturn.domain.words import clean
from trayturn.procedure import separation as moves
from trayturn.procedure.splitting import Split
from trayturn.tui.screens.separation.found import piece_rows, pieces_in, thing_rows, things_in
from trayturn.tui.screens.separation.rows import LotRow, PieceRow, Places, waits_words
from trayturn.tui.screens.separation.weights import kg_in, mass_row
from trayturn.tui.widgets.answer_rows import Answer, Count, Mass

NOWHERE, OUT = "there were none", "taken out for good"
TUB, DRIES = (LotStage.HATCHING, "hatch tub"), (LotStage.DRYING, "drying tray")
REST = ("the hatch tub",)
BIN, AMOUNTS = "bin ", ("moved", "counted")
NOTES = {
    "worms": "To a tray of this bin, or to another bin: then both files are written.",
    "rest": "What is left in the tray, not yet castings.",
    "overs": "What is not laid into another tray is gone with this one.",
}
BY_WEIGHT = "By weight without bedding: they go into that bin's file too."
BY_NUMBER = "Where you counted them: their weight is reckoned from it."


@dataclass(frozen=True, slots=True)
class Away:
    """A settling whose worms go to another bin, by its short name: both files are written, or neither."""

    settling: moves.Settling
    worms: Split
    to: str


def settle_rows(
    stack: Stack, sep: Separation, journal: Sequence[Entry], others: Mapping[str, Stack]
) -> list[Answer]:
    """The rows of the settling, with what was answered before going back from it."""
    before = moves.answered_before(journal, sep, Settled)
    along = moves.answered_with(journal, before)
    weighed = sep.skimmed_kg if all(done.skimmed_kg for done in sep.passes) else None
    castings_kg = before.castings_kg if before is not None else weighed or None
    trays, words = _trays(stack, sep), ("another bin", "the garden compost")
    bins = {f"{BIN}{clean(other.setup.name, 30)}": key for key, other in others.items()}
    rows = [
        mass_row(stack.setup, "castings", "Castings", castings_kg, fine=True),
        _lot(stack, sep, along),
        _places("worms", "Worms to", {**trays, **bins, **_no_keys(words)}, before.worms_to if before else ""),
        *_amounts(stack, along),
        _places(
            "rest",
            "The rest to",
            _no_keys([*trays, "the hatch tub", *words]),
            before.rest_to if before else "",
        ),
        *piece_rows(stack, sep, _pieces(sep, along), len(sep.passes)),
        _places("overs", "Pieces to", {**trays, **_no_keys((OUT, NOWHERE))}, _overs_to(before, sep)),
        *thing_rows(along),
    ]
    return tidied(rows, stack)


def _pieces(sep: Separation, along: Sequence[Entry]) -> list[Piece]:
    """The pieces of all passes, as many of each as were carried on before, where they were."""
    carried = {fold(p.what): p for entry in along if isinstance(entry, OversCarried) for p in entry.pieces}
    picked = {fold(piece.what): piece for piece in gathered(done.pieces for done in sep.passes)}
    return list((picked | carried).values())


def _overs_to(before: Settled | None, sep: Separation) -> str:
    """Where the pieces go unless the keeper says otherwise: nowhere without any."""
    if before is not None:
        return before.overs_to
    return "" if any(done.pieces or done.overs for done in sep.passes) else NOWHERE


def _trays(stack: Stack, sep: Separation) -> dict[str, str]:
    """The trays that things can go to, the fed one first, by how they are called."""
    feeding = [tray.id for tray in stack.in_stage(Stage.FEEDING)]
    rest = [tray.id for tray in reversed(stack.trays) if tray.id not in (sep.tray, *feeding)]
    return {f"tray {tray_id}": tray_id for tray_id in (*feeding, *rest)}


def _no_keys(words: Sequence[str]) -> dict[str, str]:
    return dict.fromkeys(words, "")


def _places(key: str, label: str, places: Mapping[str, str], before: str) -> Places:
    options = tuple(places)
    chosen = options.index(before) if before in options else 0
    return Places(key, label, NOTES[key], options, chosen, tuple(places.values()))


def _lot(stack: Stack, sep: Separation, along: Sequence[Entry]) -> LotRow:
    """Where the castings wait: where they did before, else the hatch tub."""
    mine = next((entry for entry in along if isinstance(entry, LotBegun)), None)
    last = [(LotStage.HATCHING, lot.place) for lot in stack.lots[-1:] if lot.place]
    waits = tuple(dict.fromkeys([*((mine.stage, mine.place) for mine in [mine] if mine), *last, TUB, DRIES]))
    code = next_code(stack, sep.tray)
    note = "Castings that are weighed become this lot. - and + choose, Enter types another place."
    return LotRow("lot", f"Lot {code}", note, tuple(map(waits_words, waits)), 0, code, waits)


def _amounts(stack: Stack, along: Sequence[Entry]) -> list[Answer]:
    moved = next((entry for entry in along if isinstance(entry, WormsRemoved)), None)
    counted = moved.counted if moved is not None else None
    kg = moved.worms_kg if moved is not None and counted is None else None
    return [
        replace(mass_row(stack.setup, "moved", "  by weight", kg, fine=True), note=BY_WEIGHT),
        Count("counted", "  or number", BY_NUMBER, counted, step=50),
    ]


def tidied(answers: Sequence[Answer], stack: Stack) -> list[Answer]:
    """The rows as what is chosen asks for: worms are weighed for another bin only; pieces go somewhere."""
    amounts = tuple(_minded(row, stack) for row in answers if row.key in AMOUNTS)
    found: list[Answer] = []
    for row in answers:
        if isinstance(row, Places) and row.key == "worms":
            kept = amounts or row.aside or tuple(_amounts(stack, ()))
            found += [replace(row, aside=kept), *(kept if _is_bin(row) else ())]
        elif row.key not in AMOUNTS:
            found.append(_with_pieces(row, answers))
    return found


def _minded(row: Answer, stack: Stack) -> Answer:
    """The weight of the worms, its note saying so where it is more than can well be."""
    if not isinstance(row, Mass):
        return row
    odd = worms_remark(stack, row.kg) if row.kg else ""
    return replace(row, note=odd or BY_WEIGHT)


def _is_bin(worms: Places) -> bool:
    return (worms.value or "").startswith(BIN)


def _with_pieces(row: Answer, answers: Sequence[Answer]) -> Answer:
    """Pieces that are counted go to the first place, unless the keeper says otherwise."""
    counted = any(isinstance(one, PieceRow) and one.number for one in answers)
    if isinstance(row, Places) and row.key == "overs" and counted and row.value == NOWHERE:
        return replace(row, chosen=0)
    return row


def settled(
    stack: Stack, sep: Separation, given: Mapping[str, Answer], now: datetime
) -> list[Entry] | Away | str:
    """What finishing the settling writes, or the sentence that says what is still missing."""
    worms, overs = _chosen(given, "worms"), _chosen(given, "overs")
    settling = moves.Settling(
        kg_in(given, "castings"),
        worms.value or "",
        _chosen(given, "rest").value or "",
        "" if overs.value == NOWHERE else overs.value or "",
        pieces_in(given.values()),
        overs.place or None,
        things_in(given.values()),
        _new_lot(given),
    )
    if not _is_bin(worms):
        return moves.settle(sep, settling, now)
    split = _split(stack, sep, given, now, (worms.value or "").removeprefix(BIN))
    return split if isinstance(split, str) else Away(settling, split, worms.place)


def _chosen(given: Mapping[str, Answer], key: str) -> Places:
    """The row of a place; one without a choice where it is not asked."""
    row = given.get(key)
    return row if isinstance(row, Places) else Places(key, "")


def _new_lot(given: Mapping[str, Answer]) -> moves.NewLot | None:
    row = given.get("lot")
    return moves.NewLot(row.code, *row.waiting) if isinstance(row, LotRow) else None


def _split(stack: Stack, sep: Separation, given: Mapping[str, Answer], now: datetime, to: str) -> Split | str:
    kg, row = kg_in(given, "moved"), given.get("counted")
    counted = row.number if isinstance(row, Count) and row.number else None
    if kg is None and counted is None:
        return f"How many worms go to {to}? Step their weight or their number."
    if kg is not None:
        return Split(now, kg, counted, tray=sep.tray)
    band = weight_of(counted or 0, stack.setup.species)
    return Split(now, band.mid, counted, tray=sep.tray) if band else why_no_weight(stack.setup.species)
