"""The ledger of a bin and of all bins: rows, and their sums, in which nothing unweighed is guessed."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.bands import Band
from trayturn.advice.ledger.castings import Castings, castings_book, together
from trayturn.advice.ledger.remarks import Remark, remarks
from trayturn.advice.ledger.turn import Turn, turn_of
from trayturn.advice.pantry import Pantry
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.words import as_read

Forecasts = Mapping[tuple[str, datetime], Band]
"""What the outlook expected of a tray, kg of castings, by the tray and the moment that its life began."""


@dataclass(frozen=True, slots=True)
class Own:
    """A yield of the keeper's own: the mean of so many turns, the least, the most, and how they differ.

    `sd` is the standard deviation; None for one turn alone.
    """

    mean: float
    low: float
    high: float
    sd: float | None
    turns: int


@dataclass(frozen=True, slots=True)
class Foretold:
    """The turns that had a forecast and were weighed: what came, kg, against the bands, all added up.

    `held` is how many of them came out within their own band.
    """

    turns: int
    held: int
    castings_kg: float
    forecast_kg: Band


@dataclass(frozen=True, slots=True)
class Totals:
    """Sums over turns, kg. Castings are what was weighed, in full or in part; the rest is over all turns."""

    turns: int = 0
    weighed: int = 0
    in_part: int = 0
    castings_kg: float = 0.0
    scraps_kg: float = 0.0
    bedding_kg: float = 0.0
    grit_kg: float = 0.0
    water_kg: float = 0.0
    solids_kg: float = 0.0
    per_scraps: Own | None = None
    per_solids: Own | None = None
    kept: Band | None = None
    """The share of the solids that stayed: the mean over the turns that tell of it, ends likewise."""
    foretold: Foretold | None = None


@dataclass(frozen=True, slots=True)
class Ledger:
    """The ledger of one bin as of a moment. `turns` are those finished, the newest first.

    `years` are the sums by the year in which the separation ended; `under_way` what has come so far of
    separations that are not finished, by tray, and in no sum. `remarks` are rows that cannot be.
    """

    bin: str
    name: str
    units: Units
    as_of: datetime
    turns: tuple[Turn, ...]
    totals: Totals
    years: Mapping[int, Totals]
    under_way: Mapping[str, Castings]
    remarks: tuple[Remark, ...] = ()

    def remarks_of(self, turn: Turn) -> tuple[Remark, ...]:
        """What does not add up about one row."""
        row = (turn.life.tray, turn.life.started_at)
        return tuple(one for one in self.remarks if (one.tray, one.life_began_at) == row)


def ledger_of(stack: Stack, pantry: Pantry, forecasts: Forecasts | None = None) -> Ledger:
    """The ledger of a bin. `forecasts` are set beside what came, where there are any."""
    book, expected = castings_book(stack), forecasts or {}
    turns = tuple(
        turn_of(
            stack.key,
            life,
            together([book[one] for one in life.separations]),
            pantry,
            expected.get((life.tray, life.started_at)),
        )
        for life in reversed(stack.lives)
    )
    by_year: dict[int, list[Turn]] = {}
    for turn in turns:
        by_year.setdefault(as_read(turn.life.ended_at, stack.as_of).year, []).append(turn)
    return Ledger(
        stack.key,
        stack.setup.name,
        stack.setup.units,
        stack.as_of,
        turns,
        totals_of(turns),
        {year: totals_of(by_year[year]) for year in sorted(by_year, reverse=True)},
        {one.tray: book[one] for one in stack.separations},
        tuple(one for turn in turns for one in remarks(turn, _empty_kg(stack, turn), stack.setup.units)),
    )


def _empty_kg(stack: Stack, turn: Turn) -> float:
    known = stack.tray(turn.life.tray)
    return known.empty_kg if known is not None else stack.setup.tray_empty_kg


def in_all(ledgers: Iterable[Ledger]) -> Totals:
    """The sums over several bins."""
    return totals_of([turn for ledger in ledgers for turn in ledger.turns])


def totals_of(turns: Sequence[Turn]) -> Totals:
    """The sums over turns."""
    return Totals(
        turns=len(turns),
        weighed=sum(turn.castings.whole for turn in turns),
        in_part=sum(turn.castings.kg is not None and not turn.castings.whole for turn in turns),
        castings_kg=math.fsum(turn.castings.kg or 0.0 for turn in turns),
        scraps_kg=math.fsum(turn.scraps_kg for turn in turns),
        bedding_kg=math.fsum(turn.bedding_kg for turn in turns),
        grit_kg=math.fsum(turn.life.grit_kg for turn in turns),
        water_kg=math.fsum(turn.life.water_kg for turn in turns),
        solids_kg=math.fsum(turn.solids_kg for turn in turns),
        per_scraps=_own([turn.per_scraps for turn in turns]),
        per_solids=_own([turn.per_solids for turn in turns]),
        kept=_mean([turn.kept for turn in turns]),
        foretold=_foretold(turns),
    )


def _foretold(turns: Iterable[Turn]) -> Foretold | None:
    """The forecasts of these turns against what came; None where there are none to set against it."""
    judged = [turn for turn in turns if turn.held is not None]
    bands = [turn.forecast_kg for turn in judged if turn.forecast_kg is not None]
    if not bands:
        return None
    came = math.fsum(turn.castings.kg or 0.0 for turn in judged)
    held = sum(turn.held is True for turn in judged)
    return Foretold(len(judged), held, came, Band(*(math.fsum(ends) for ends in zip(*bands, strict=True))))


def _own(ratios: Iterable[float | None]) -> Own | None:
    known = [ratio for ratio in ratios if ratio is not None]
    if not known:
        return None
    mean = math.fsum(known) / len(known)
    off = math.fsum((one - mean) ** 2 for one in known)
    sd = math.sqrt(off / (len(known) - 1)) if len(known) > 1 else None
    return Own(mean, min(known), max(known), sd, len(known))


def _mean(bands: Iterable[Band | None]) -> Band | None:
    known = [band for band in bands if band is not None]
    return Band(*(math.fsum(ends) / len(known) for ends in zip(*known, strict=True))) if known else None
