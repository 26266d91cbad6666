"""A turn against the stock, in words: what is short, and what to do instead."""

from __future__ import annotations

from trayturn.advice.bands import rough_mass
from trayturn.advice.stock.turns import TurnSupport
from trayturn.domain.supplies import SMALLEST_KG, fold
from trayturn.domain.words import clean, count, due

SHREDDED = ("shred", "card", "paper", "carton", "torn")


def verb(name: str) -> str:
    """What a keeper does to have more of it: paper and card are shredded, all else is collected."""
    return "Shred" if any(word in fold(name) for word in SHREDDED) else "Collect"


def stock_line(support: TurnSupport) -> str:
    """What there is for the fresh tray, where it is enough or not known."""
    name = clean(support.bedding, 40)
    if support.stock_kg is None:
        return f"How much {name} there is is not known: it was never counted."
    return f"In stock: about {rough_mass(support.stock_kg, support.units)} of {name}."


def support_lines(support: TurnSupport) -> tuple[str, ...]:
    """What is short, and what to do instead, in the order in which to try it. Empty where the stock does."""
    if not support.short:
        return ()
    return (
        short_line(support, f" ({support.need.basis})"),
        *_with_others(support),
        _gather(support),
        *other_ways(support),
    )


def short_line(support: TurnSupport, basis: str = "") -> str:
    """`Tray D takes about 500 g of shredded cardboard, and about 300 g is in stock.`"""
    units, there = support.units, support.stock_kg or 0.0
    name, takes = clean(support.bedding, 40), rough_mass(support.need.one.mid, units)
    when = "is" if support.at <= support.now else "will be"
    held = f"{f'about {rough_mass(there, units)}' if there > SMALLEST_KG else 'none'} {when} in stock"
    return f"Tray {support.tray} takes about {takes} of {name}{basis}, and {held}."


def _gather(support: TurnSupport) -> str:
    more = rough_mass(support.short_kg, support.units)
    by = "first" if support.at <= support.now else f"by the turn, {due(support.at, support.now)}"
    return f"{verb(support.bedding)} about {more} more {by}."


def other_ways(support: TurnSupport) -> tuple[str, ...]:
    """What else can be done than to gather more: without the fresh tray, or with a thinner one."""
    return (_without(support), _thinner(support)) if support.short else ()


def _with_others(support: TurnSupport) -> tuple[str, ...]:
    if not support.others:
        return ()
    names = ", ".join(clean(one.name, 40) for one in support.others)
    return (
        f"Use all the other bedding in stock too: {names}, {rough_mass(support.others_kg, support.units)}.",
    )


def _without(support: TurnSupport) -> str:
    if support.without is None:
        on = f": tray {support.goes_on} goes on being fed" if support.goes_on else ""
        return f"Or put the turn off until there is bedding{on}. Only a fresh tray could be fed after it."
    stand = count(support.stands, "tray stands", "trays stand")
    way = "leave tray {} off after its separation" if support.comes_back else "turn without tray {}"
    return (
        f"Or {way.format(support.tray)}: {stand} instead of {support.stands + 1}, and tray "
        f"{support.without.fed} is fed. Put tray {support.tray} in once there is bedding."
    )


def _thinner(support: TurnSupport) -> str:
    least = f"{rough_mass(support.least_kg, support.units)}, half of the usual; our choice"
    if support.thin_kg is None:
        return f"There is too little for a thinner tray: it needs at least {least}."
    there = rough_mass(support.thin_kg, support.units)
    return f"Or fill tray {support.tray} thinner, with the {there} there is: at least {least}."
