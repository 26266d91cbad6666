"""What came out of a tray in one separation: pieces, what does not belong, worms that moved, and castings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeVar

from trayturn.advice.found.kinds import REMEDIES
from trayturn.advice.pieces import gathered, piece_told
from trayturn.domain.entries import ContaminantFound, LotBegun, OversCarried, Piece, WormsRemoved
from trayturn.domain.lots import Over
from trayturn.domain.setup import Units
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.supplies import fold
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean, count, listed

E = TypeVar("E", OversCarried, ContaminantFound, LotBegun, WormsRemoved)


@dataclass(frozen=True, slots=True)
class CameOutTold:
    """What came out. `picked` are the pieces of all passes, `left_out` those of them not carried on.

    `gone` are pieces that had gone round before and went with this tray, `still` those known to lie in it.
    """

    picked: tuple[Piece, ...]
    carried: tuple[OversCarried, ...]
    left_out: tuple[Piece, ...]
    gone: tuple[Over, ...]
    still: tuple[Over, ...]
    found: tuple[ContaminantFound, ...]
    worms: tuple[WormsRemoved, ...]
    lots: tuple[LotBegun, ...]


def came_out(stack: Stack, sep: Separation) -> CameOutTold:
    """What came out of the tray in that separation so far."""
    picked, carried = gathered(done.pieces for done in sep.passes), _of(OversCarried, sep)
    kept = {fold(piece.what) for entry in carried for piece in entry.pieces}
    gone = [over for over in stack.overs_gone if over.tray == sep.tray and over.gone_at == sep.ended_at]
    went = kept | {fold(over.what) for over in gone}
    left_out = [piece for piece in picked if fold(piece.what) not in went] if sep.settled is not None else []
    still = [over for over in stack.overs if over.tray == sep.tray] if sep.ended_at is None else []
    return CameOutTold(
        tuple(picked),
        carried,
        tuple(left_out),
        tuple(gone),
        tuple(still),
        _of(ContaminantFound, sep),
        _of(WormsRemoved, sep),
        _of(LotBegun, sep),
    )


def _of(kind: type[E], sep: Separation) -> tuple[E, ...]:
    return tuple(entry for entry in sep.came_out if isinstance(entry, kind))


def came_out_lines(stack: Stack, sep: Separation) -> list[str]:
    """The same in sentences: castings, worms, pieces carried on and gone, and what did not belong."""
    told, units = came_out(stack, sep), stack.setup.units
    lines = [_lot(lot, units) for lot in told.lots]
    lines += [f"Worms moved: {_worms(entry, units)}." for entry in told.worms]
    lines += [f"On to tray {entry.to}: {_round(entry, stack)}." for entry in told.carried]
    if went := [*(_gone(over) for over in told.gone), *(piece_told(one, units) for one in told.left_out)]:
        lines.append(f"Gone with it: {'; '.join(went)}.")
    if told.found:
        lines.append(f"Did not belong: {listed(found_words(told.found))}.")
    return lines


def _lot(lot: LotBegun, units: Units) -> str:
    mass = f", {show_mass(lot.kg, units)}" if lot.kg else ""
    place = f", in {clean(lot.place, 40)}" if lot.place else ""
    return f"Lot {lot.lot} begun{mass}, {lot.stage}{place}."


def _worms(entry: WormsRemoved, units: Units) -> str:
    number = f" ({count(entry.counted, 'worm')})" if entry.counted else ""
    to = f" to {clean(entry.went_to, 40)}" if entry.went_to else ""
    return f"{show_mass(entry.worms_kg, units)}{number}{to}"


def _round(entry: OversCarried, stack: Stack) -> str:
    """The pieces carried on, and how often those lying there have been by now."""
    here = {fold(over.what): over.turns for over in stack.overs if over.last_at == entry.at}
    told = []
    for piece in entry.pieces:
        turns = here.get(fold(piece.what), 1)
        times = f" ({count(turns, 'turn')} by now)" if turns > 1 else ""
        told.append(piece_told(piece, stack.setup.units) + times)
    return "; ".join(told)


def _gone(over: Over) -> str:
    return f"{clean(over.what, 40)}, after {count(over.turns, 'turn')}"


def found_words(found: Iterable[ContaminantFound]) -> list[str]:
    """`3 stickers (banana)`, one for each kind and source."""
    sums: dict[tuple[str, str], tuple[ContaminantFound, int]] = {}
    for one in found:
        key = one.what, fold(one.source)
        sums[key] = one, sums.get(key, (one, 0))[1] + one.count
    return [
        REMEDIES[one.what].counted(number) + (f" ({clean(one.source, 40)})" if one.source else "")
        for one, number in sums.values()
    ]
