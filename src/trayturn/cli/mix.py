"""`mix`: what a mix of scraps and bedding comes to, and what brings it to a goal."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from trayturn.cli import amounts, as_json
from trayturn.cli.layout import Page
from trayturn.cli.parsing import Refused
from trayturn.cli.table import table_of
from trayturn.clock import Clock
from trayturn.domain.setup import Units
from trayturn.domain.units import parse_area, show_mass, show_volume, three_figures
from trayturn.domain.words import clean, listed
from trayturn.science import limits
from trayturn.science.blend import WATER, Blend, Part, Stuff
from trayturn.science.errors import OutOfRange
from trayturn.science.goals import Goal, Unreachable, c_to_n_goal, moisture_goal, solve
from trayturn.science.materials import Material, NotKnown, Table

USUAL = ("shredded cardboard", "water")
"""What may be added where the keeper does not say."""
FIELDS = {"moisture": "moisture", "n": "n", "c": "c", "salt": "salt"}


def mix(options: Namespace, clock: Clock) -> int:
    """Print what the mix comes to; with goals, what to add and what comes of it. Exit 1 if unreachable."""
    units = Units.US if options.us else Units.METRIC
    try:
        table = table_of(options)
        blend = Blend(tuple(_part(text, table, units) for text in options.items))
        _ = blend.moisture
        added, trouble = _reached(options, blend, table)
    except (OutOfRange, NotKnown) as slip:
        raise Refused(str(slip)) from None
    area = amounts.read(parse_area, options.area, "--area", units)
    if options.json:
        as_json.print_json(_answer(blend, added, area, table) | ({"unreachable": trouble} if trouble else {}))
    else:
        page = Page(options.ascii)
        _print(blend, added, area, units, table, page)
        page.lines([trouble] if trouble else [])
    return int(bool(trouble))


def _reached(options: Namespace, blend: Blend, table: Table) -> tuple[list[Part] | None, str]:
    """What reaches the goals, or why nothing does."""
    try:
        return _added(options, blend, table), ""
    except Unreachable as trouble:
        return None, str(trouble)


def _part(text: str, table: Table, units: Units) -> Part:
    """`cabbage=500 g`, or with its own figures `leaves=10 kg; moisture=35; n=0.75; c=50` (percent)."""
    first, *figures = text.split(";")
    name, sign, amount = (piece.strip() for piece in first.rpartition("="))
    if not sign or not name or not amount:
        raise Refused(f'{clean(text, 40)!r} needs a name and a mass in quotes, such as "cabbage=500 g".')
    kg = amounts.mass(amount, clean(name, 40), units) or 0.0
    return Part(_own(name, figures) if figures else table.find(name).stuff, kg)


def _own(name: str, figures: Sequence[str]) -> Stuff:
    given: dict[str, float] = {}
    for figure in figures:
        key, sign, number = (piece.strip() for piece in figure.partition("="))
        if not sign or key.lower() not in FIELDS:
            raise Refused(
                f"{clean(figure, 40)!r}: after the mass come moisture=, n=, c= or salt=, in percent."
            )
        given[key.lower()] = (amounts.plain_number(number, f"{clean(name, 40)} {key}", "%") or 0.0) / 100
    return Stuff(name, given.get("moisture"), given.get("n"), given.get("c"), given.get("salt"))


def inline_row(text: str) -> Material | None:
    """The row of an item that is given figures of its own; None where it is not. Raises `Refused`."""
    first, *figures = text.split(";")
    if not figures:
        return None
    name = first.rpartition("=")[0].strip()
    try:
        own = _own(name, figures)
    except OutOfRange as slip:
        raise Refused(str(slip)) from None
    return Material(
        id=f"inline-{name}",
        name=name,
        aliases=(),
        group="own",
        role="food",
        moisture=own.moisture,
        n=own.n,
        c=own.c,
        density_kg_m3=None,
        breakdown="",
        salt=own.salt,
        guidance="ok",
        reason="",
        source="as typed",
        sure="own",
    )


def _added(options: Namespace, blend: Blend, table: Table) -> list[Part] | None:
    """What reaches the goals; None where none was asked for."""
    goals: list[Goal] = []
    if options.goal_moisture is not None:
        goals.append(moisture_goal(options.goal_moisture / 100))
    if options.goal_cn is not None:
        goals.append(c_to_n_goal(options.goal_cn))
    if not goals:
        return None
    addends = [
        WATER if name.strip().lower() == "water" else table.find(name).stuff for name in options.add or USUAL
    ]
    return solve(blend, goals, addends)


def _answer(blend: Blend, added: Sequence[Part] | None, area: float | None, table: Table) -> as_json.Data:
    data = _figures(blend, area, table)
    if added is None:
        return data
    told = [{"ingredient": part.stuff.name, "kg": part.kg} for part in added]
    return data | {"add": told, "after": _figures(blend.plus(*added), area, table)}


def _figures(blend: Blend, area: float | None, table: Table) -> as_json.Data:
    volume = blend.volume_m3
    return {
        "wet_kg": blend.wet_kg,
        "dry_kg": blend.dry_kg,
        "moisture_pct": 100 * blend.moisture,
        "c_to_n": blend.c_to_n,
        "salt_pct": None if blend.salt is None else 100 * blend.salt,
        "volume_l": None if volume is None else 1000 * volume,
        "warnings": [
            *(f"{one.what} ({one.source})" for one in limits.warnings(blend, area)),
            *_doubts(blend, table),
        ],
    }


def _print(
    blend: Blend, added: Sequence[Part] | None, area: float | None, units: Units, table: Table, page: Page
) -> None:
    _say(blend, area, units, page)
    if added is not None:
        parts = [f"{show_mass(part.kg, units)} of {part.stuff.name}" for part in added]
        page.line(f"Add {listed(parts)}." if parts else "Nothing needs to be added.")
        if parts:
            page.line("Then:")
            _say(blend.plus(*added), area, units, page)
    page.lines(_doubts(blend.plus(*(added or ())), table))


def _say(blend: Blend, area: float | None, units: Units, page: Page) -> None:
    ratio = "not known" if blend.c_to_n is None else f"about {three_figures(blend.c_to_n)}"
    page.line(f"{show_mass(blend.wet_kg, units)} in all, {show_mass(blend.dry_kg, units)} of it solids.", 2)
    page.line(f"Moisture about {100 * blend.moisture:.0f} %. Carbon to nitrogen {ratio}.", 2)
    salt = 100 * (blend.salt or 0.0)
    volume = blend.volume_m3
    space = "Volume not known." if volume is None else f"Loose, about {show_volume(1000 * volume, units)}."
    page.line(f"Salt at least {three_figures(salt) if salt >= 0.005 else '0'} %. {space}", 2)
    page.lines((f"Mind: {one.what} Source: {one.source}." for one in limits.warnings(blend, area)), 2)


def _doubts(blend: Blend, table: Table) -> list[str]:
    """What the figures rest on that nobody measured, and what is said of an ingredient."""
    rows = [row for part in blend.parts if (row := _row(part, table)) is not None]
    unsure = dict.fromkeys(row.name for row in rows if row.sure in ("proxy", "unsure"))
    lines = [f"Figures of {listed(unsure)} are estimates, not measured."] if unsure else []
    minded = dict.fromkeys(row for row in rows if row.guidance != "ok")
    return [
        *lines,
        *(f"{row.name}: {row.guidance}. {row.reason[:1].upper()}{row.reason[1:]}." for row in minded),
    ]


def _row(part: Part, table: Table) -> Material | None:
    return next((row for row in table.rows if row.name == part.stuff.name), None)
