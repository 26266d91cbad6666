"""The table of ingredients, with the keeper's own where a bin is named; and `ingredients`, which lists it."""

from __future__ import annotations

from argparse import Namespace

from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.units import three_figures
from trayturn.science.materials import Material, Table, load_materials


def table_of(options: Namespace) -> Table:
    """The shipped table, and before it the rows of the bin that `--bin` names."""
    table = load_materials()
    if getattr(options, "bin", None) is None:
        return table
    from trayturn.advice.ingredients import own_rows
    from trayturn.cli.opening import open_bin, readable

    return table.with_own(own_rows(readable(open_bin(options))))


def ingredients(options: Namespace, clock: Clock) -> int:
    """Print the rows that hold the words, or all of them."""
    table, words = table_of(options), " ".join(options.words)
    rows = table.search(words)
    if not rows:
        table_error(table, words)
    if options.json:
        as_json.print_json({"ingredients": [_data(row) for row in rows]})
        return 0
    page = Page(options.ascii)
    for row in rows:
        page.line(f"{row.name}: {_figures(row)}", hanging=2)
        page.line(_advice(row), 2)
    return 0


def table_error(table: Table, words: str) -> None:
    """Refuse words that no row holds, with the nearest names."""
    from trayturn.science.materials import NotKnown

    try:
        table.find(words)
    except NotKnown as slip:
        raise Refused(str(slip)) from None


def _percent(share: float | None) -> str:
    return "?" if share is None else three_figures(100 * share)


def _figures(row: Material) -> str:
    ratio = "?" if row.c_to_n is None else three_figures(row.c_to_n)
    speed = f", breaks down {row.breakdown}" if row.breakdown else ""
    return f"moisture {_percent(row.moisture)} %, N {_percent(row.n)} % of solids, C:N {ratio}{speed}."


def _advice(row: Material) -> str:
    reason = f": {row.reason}" if row.reason else ""
    return f"{row.guidance}{reason}. Source: {row.source} ({row.sure})."


def _data(row: Material) -> as_json.Data:
    def percent(share: float | None) -> float | None:
        return None if share is None else round(100 * share, 6)

    return {
        "id": row.id,
        "name": row.name,
        "aliases": list(row.aliases),
        "group": row.group,
        "role": row.role,
        "moisture_pct": percent(row.moisture),
        "n_pct": percent(row.n),
        "c_pct": percent(row.c),
        "c_to_n": row.c_to_n,
        "density_kg_m3": row.density_kg_m3,
        "breakdown": row.breakdown or None,
        "salt_pct": percent(row.salt),
        "guidance": row.guidance,
        "reason": row.reason,
        "source": row.source,
        "sure": row.sure,
    }
