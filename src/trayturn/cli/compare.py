"""`compare`: ways of running one bin side by side."""

from __future__ import annotations

from argparse import Namespace
from typing import Any

from trayturn.advice.comparing.compare import DRAWS, compare
from trayturn.advice.comparing.result import Comparison, Row
from trayturn.advice.comparing.words import sentences, several_scraps, story
from trayturn.advice.outlook.result import Five
from trayturn.cli import amounts, as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_bin, readable, stack_asked
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.stack import Stack

TRAYS, EVERY = (3, 4, 5), (45.0, 60.0, 75.0)
MOST_TRAYS, LONGEST_DAYS = 20, 730.0


def compared(options: Namespace, clock: Clock) -> int:
    """Print one row a combination, and what is best for what."""
    profile = readable(open_bin(options))
    stack = stack_asked(options, profile, clock())
    trays = _list(options.trays, "--trays", 1, MOST_TRAYS) or TRAYS
    every = _list(options.every, "--every", 5, LONGEST_DAYS) or EVERY
    units = stack.setup.units
    scraps = [
        kg
        for part in (options.scraps or "").split(",")
        if (kg := amounts.mass(part or None, "--scraps", units))
    ]
    seed, draws = options.seed if options.seed is not None else 1, options.draws or DRAWS
    if not 20 <= draws <= 2000:
        raise Refused("--draws takes a whole number from 20 to 2000.")
    try:
        found = compare(profile, stack.as_of, [int(n) for n in trays], every, scraps, abs(seed), draws)
    except ValueError as error:
        raise Refused(str(error)) from None
    if options.json:
        as_json.print_json(_data(found, stack))
    else:
        _print(found, stack, Page(options.ascii))
    return 0


def _list(text: str | None, option: str, least: float, most: float) -> list[float]:
    """`3,4,5`. Raises `Refused`."""
    found = []
    for part in (text or "").split(","):
        if not part.strip():
            continue
        number = amounts.plain_number(part, option) or 0.0
        if not least <= number <= most:
            raise Refused(f"{option} takes numbers from {least:g} to {most:g} with commas, such as 3,4,5.")
        found.append(number)
    return list(dict.fromkeys(found))


def _print(found: Comparison, stack: Stack, page: Page) -> None:
    units = stack.setup.units
    for place, row in enumerate(found.rows):
        lines = story(row, units)
        page.line(f"{lines[0]}{'  (nearest to today)' if place == found.now else ''}")
        page.lines(lines[1:], 2, 2)
    page.line()
    page.lines(sentences(found, units), 0, 2)
    if not several_scraps(found):
        page.line("--scraps 1kg,2kg lays amounts side by side too.")


def _data(found: Comparison, stack: Stack) -> dict[str, Any]:
    return {
        "bin": found.key,
        "as_of": as_json.moment(found.as_of),
        "rows": [_row(row, place == found.now) for place, row in enumerate(found.rows)],
        "best": [
            {"aim": str(one.aim), "row": one.place, "as_good": list(one.as_good), "why": one.why}
            for one in found.best
        ],
        "rests_on": {"measurements": found.rests_on.measurements, "words": found.rests_on.words},
        "seed": found.seed,
        "draws": found.draws,
    }


def _row(row: Row, now: bool) -> dict[str, Any]:
    return {
        "trays": row.way.trays,
        "every_days": row.way.every_days,
        "scraps_kg_per_week": row.way.scraps_kg_per_week,
        "castings_kg_per_month": _five(row.castings_kg_per_month),
        "castings_kg": _five(row.castings_kg),
        "age_days": row.age_days,
        "moisture": _five(row.moisture),
        "hatched": _five(row.hatched),
        "worms_kg": _five(row.worms_kg),
        "sump_l_per_turn": _five(row.sump_l_per_turn),
        "sump_full": row.sump_full,
        "takes_all": row.takes_all,
        "bedding_kg_per_month": row.bedding_kg_per_month,
        "work_min_per_month": row.work_min._asdict(),
        "now": now,
    }


def _five(five: Five) -> dict[str, float]:
    return five._asdict()
