"""`ledger`: castings against what went in, turn by turn and in sums: the text twin of its screen."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from trayturn.advice.bands import Band
from trayturn.advice.ledger.books import Foretold, Ledger, Own, Totals, in_all, ledger_of
from trayturn.advice.ledger.castings import Castings
from trayturn.advice.ledger.remarks import Remark
from trayturn.advice.ledger.sums import (
    ABOUT,
    NO_FORECASTS,
    NOTHING_YET,
    forecast_line,
    kept_line,
    under_way_lines,
    yield_line,
)
from trayturn.advice.ledger.table import columns_of, heading, sum_row, sums_of, turn_line
from trayturn.advice.ledger.turn import Turn
from trayturn.advice.pantry import pantry_of
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_all, open_bin, readable, stack_asked
from trayturn.cli.parsing import moment_asked
from trayturn.cli.standing import NO_BINS
from trayturn.clock import Clock
from trayturn.domain.profile import Profile
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack


def ledger(options: Namespace, clock: Clock) -> int:
    """Print the ledger of one bin; without one those of every bin, and the sums over all."""
    now = clock()
    loaded = [open_bin(options)] if options.bin else open_all(options)
    if options.bin:
        readable(loaded[0])
    profiles = [one.profile for one in loaded if one.profile is not None and not one.problems]
    broken = [one.key for one in loaded if one.profile is None or one.problems]
    books = [_book(one, stack_asked(options, one, now), options.forecasts) for one in profiles]
    books.sort(key=lambda one: one.name.casefold())
    if not options.json:
        _print(books, broken, Page(options.ascii))
        if options.forecasts and in_all(books).foretold is None:
            Page(options.ascii).line(f"{NO_FORECASTS}.")
    elif options.bin:
        as_json.print_json(_data(books[0]))
    else:
        as_json.print_json(
            {
                "as_of": as_json.moment(moment_asked(options, now)),
                "bins": [_data(one) for one in books],
                "in_all": _totals(in_all(books)),
                "broken": broken,
            }
        )
    return int(bool(broken))


def _book(profile: Profile, stack: Stack, with_forecasts: bool) -> Ledger:
    """A bin's ledger; past forecasts beside it are made again, which takes some seconds."""
    if not with_forecasts:
        return ledger_of(stack, pantry_of(profile))
    from trayturn.advice.outlook.score import forecasts

    return ledger_of(stack, pantry_of(profile), forecasts(profile, stack))


def _data(one: Ledger) -> as_json.Data:
    return {
        "bin": one.bin,
        "name": one.name,
        "as_of": as_json.moment(one.as_of),
        "turns": [_turn(turn, one) for turn in one.turns],
        "totals": _totals(one.totals),
        "years": [{"year": year, **_totals(totals)} for year, totals in one.years.items()],
        "under_way": [{"tray": tray, **_castings(castings)} for tray, castings in one.under_way.items()],
        "remarks": [_remark(remark) for remark in one.remarks],
    }


def _remark(one: Remark) -> as_json.Data:
    at, began = as_json.moment(one.at), as_json.moment(one.life_began_at)
    told = {"code": one.code, "tray": one.tray, "started_at": began}
    return {**told, "what": one.what, "look": one.look, "at": at}


def _turn(turn: Turn, book: Ledger) -> as_json.Data:
    life = turn.life
    return {
        "tray": life.tray,
        "started_at": as_json.moment(life.started_at),
        "separated_at": as_json.moment(life.separated_at),
        "ended_at": as_json.moment(life.ended_at),
        "days": as_json.days(turn.days),
        "feedings": len(life.meals),
        "scraps_kg": as_json.amounts(life.scraps_kg),
        "bedding_kg": as_json.amounts(life.bedding_kg),
        "grit_kg": as_json.amount(life.grit_kg),
        "water_kg": as_json.amount(life.water_kg),
        "solids_kg": as_json.amount(turn.solids_kg),
        "reckoned_as_scraps": list(turn.stand_ins),
        "inputs_known": life.whole,
        **_castings(turn.castings),
        "castings_per_kg_of_scraps": as_json.amount(turn.per_scraps),
        "castings_per_kg_of_solids": as_json.amount(turn.per_solids),
        "water_share": _band(turn.water.share) if turn.water.read_at is not None else None,
        "solids_kept": _band(turn.kept),
        "worms_to": _worms_to(turn),
        "forecast_kg": _band(turn.forecast_kg),
        "forecast_held": turn.held,
        "remarks": [one.code for one in book.remarks_of(turn)],
    }


def _worms_to(turn: Turn) -> str | None:
    settled = turn.life.separations[-1].settled if turn.life.separations else None
    return settled.worms_to or None if settled is not None else None


def _castings(castings: Castings) -> as_json.Data:
    return {
        "castings_kg": as_json.amount(castings.kg),
        "weighed": castings.how.name.lower(),
        "passes": castings.passes,
        "skims_weighed": castings.skims,
    }


def _totals(totals: Totals) -> as_json.Data:
    return {
        "turns": totals.turns,
        "weighed": totals.weighed,
        "weighed_in_part": totals.in_part,
        "castings_kg": as_json.amount(totals.castings_kg) if totals.weighed + totals.in_part else None,
        "scraps_kg": as_json.amount(totals.scraps_kg),
        "bedding_kg": as_json.amount(totals.bedding_kg),
        "grit_kg": as_json.amount(totals.grit_kg),
        "water_kg": as_json.amount(totals.water_kg),
        "solids_kg": as_json.amount(totals.solids_kg),
        "castings_per_kg_of_scraps": _own(totals.per_scraps),
        "castings_per_kg_of_solids": _own(totals.per_solids),
        "solids_kept": _band(totals.kept),
        "forecasts": _foretold(totals.foretold),
    }


def _foretold(told: Foretold | None) -> as_json.Data | None:
    if told is None:
        return None
    came = as_json.amount(told.castings_kg)
    return {"turns": told.turns, "held": told.held, "castings_kg": came, "kg": _band(told.forecast_kg)}


def _own(own: Own | None) -> as_json.Data | None:
    if own is None:
        return None
    mean, low, high, sd = map(as_json.amount, (own.mean, own.low, own.high, own.sd))
    return {"mean": mean, "low": low, "high": high, "sd": sd, "turns": own.turns}


def _band(band: Band | None) -> as_json.Data | None:
    if band is None:
        return None
    low, mid, high = map(as_json.amount, band)
    return {"low": low, "mid": mid, "high": high}


def _print(books: Sequence[Ledger], broken: Sequence[str], page: Page) -> None:
    if not books and not broken:
        page.line(NO_BINS)
    for number, book in enumerate(books):
        if number:
            page.line()
        _print_book(book, page, alone=len(books) == 1)
    page.lines((f"{key} cannot be read. See why with: trayturn verify {key}" for key in broken), 0, 2)
    everything = in_all(books)
    if len(books) > 1 and everything.turns:
        units = Units.US if all(book.units is Units.US for book in books) else Units.METRIC
        page.line()
        page.line(sum_row("all bins", everything, columns_of(books, named=False), units))
        told = (yield_line(everything, units), forecast_line(everything, units), kept_line(everything))
        page.lines([line for line in told if line], 0, 2)
    if everything.turns:
        page.line()
        page.lines(ABOUT, 0, 2)


def _print_book(book: Ledger, page: Page, *, alone: bool) -> None:
    page.title(f"Ledger of {book.name}", f"{book.as_of:%a} {book.as_of.day} {book.as_of:%b %Y}")
    if not book.turns:
        page.line(NOTHING_YET[0])
        page.lines(under_way_lines(book))
        return
    columns = columns_of([book], named=False)
    page.line(heading(columns, book.units))
    for turn in book.turns:
        wrong = bool(book.remarks_of(turn))
        page.line(turn_line(turn, "", columns, book.as_of, book.units, wrong=wrong))
    for label, totals in sums_of([book], book.totals):
        page.line(sum_row(label, totals, columns, book.units))
    kept = kept_line(book.totals) if alone else ""
    foretold = forecast_line(book.totals, book.units)
    told = (yield_line(book.totals, book.units), foretold, kept, *under_way_lines(book))
    page.lines((line for line in told if line), 0, 2)
    page.lines((f"! {remark.what} {remark.look}" for remark in book.remarks), 0, 2)
