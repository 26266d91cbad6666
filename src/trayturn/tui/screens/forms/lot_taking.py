"""What is asked and written where castings are used, given away or sold."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from trayturn.advice.bands import rough_mass
from trayturn.advice.castings.use import Verdict, judge, minded
from trayturn.domain.entries import CastingsGiven, CastingsUsed, Entry
from trayturn.domain.lots import Lot, heavier
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Slip, Values
from trayturn.tui.screens.forms.lot_fields import YES_NO, Parts, mass_field


def _label(lot: Lot) -> tuple[Field, ...]:
    """Out of which jar, where there are any."""
    jars = [jar for jar in lot.jars.values() if jar.left_kg > 0]
    if not jars:
        return ()
    options = (*(Option(jar.label, clean(jar.label, 30)) for jar in jars), Option("", "loose"))
    return (Field("label", "Out of", "pick", "", options, jars[0].label),)


def _share(texts: Mapping[str, str]) -> float | None:
    """The share that is typed, percent; None as long as it is none."""
    try:
        return float(texts.get("share", "").strip().removesuffix("%").replace(",", "."))
    except ValueError:
        return None


def _refused(share: float | None) -> bool:
    """Whether a share is one to be refused."""
    return share is not None and judge(share).verdict is Verdict.REFUSED


def minded_share(texts: Mapping[str, str], now: datetime) -> str:
    """What to mind about the share that is typed."""
    return minded(_share(texts))


def using(stack: Stack, lot: Lot) -> Parts:
    """Castings used: out of what, how much, what for, and as which share of a mix."""
    fields = (
        *_label(lot),
        mass_field("kg", "How much", "such as 500 g"),
        Field("where", "For what", hint="such as tomatoes", most=200),
        Field("share", "Share of mix", "percent", "such as 15 %; by volume", least=0, most=100),
        Field(
            "despite",
            "More than half, all the same",
            "pick",
            "",
            YES_NO,
            "",
            asked=lambda texts: _refused(_share(texts)),
        ),
    )
    return fields, lambda v, now: [_used(stack, lot, v)]


def _no_more_than_there_is(stack: Stack, lot: Lot, v: Values) -> None:
    """Raises `Slip` for more than the jar, or what is loose of the lot, holds beyond what scales explain."""
    label, kg = v.get("label") or "", v["kg"] or 0.0
    held = lot.jars[label].left_kg if label in lot.jars else lot.kg
    if held is not None and heavier(kg, held):
        there = rough_mass(held, stack.setup.units)
        raise Slip("kg", f"That is more than the {there} there is. If there is more, weigh the lot again.")


def _used(stack: Stack, lot: Lot, v: Values) -> Entry:
    """The entry. Raises `Slip` for more than there is, and more than half of a mix without a yes."""
    _no_more_than_there_is(stack, lot, v)
    refused = _refused(v["share"])
    if refused and v["despite"] != "yes":
        raise Slip("share", f"{minded(v['share'])} Say yes below to write it down all the same.")
    return CastingsUsed(
        at=v["when"],
        note=v["note"],
        lot=lot.code,
        label=v.get("label") or "",
        kg=v["kg"],
        where=v["where"],
        share_pct=v["share"],
        despite=True if refused else None,
    )


def giving(stack: Stack, lot: Lot) -> Parts:
    """Castings given away or sold: out of what, how much, to whom."""
    fields = (
        *_label(lot),
        mass_field("kg", "How much", "such as 500 g"),
        Field("to", "To whom", hint="such as a neighbour", most=200),
        Field("sold", "Sold", "pick", "", YES_NO, ""),
    )
    return fields, lambda v, now: [_given(stack, lot, v)]


def _given(stack: Stack, lot: Lot, v: Values) -> Entry:
    """The entry. Raises `Slip` for more than there is."""
    _no_more_than_there_is(stack, lot, v)
    return CastingsGiven(
        at=v["when"],
        note=v["note"],
        lot=lot.code,
        label=v.get("label") or "",
        kg=v["kg"],
        to=v["to"],
        sold=True if v["sold"] == "yes" else None,
        rules_read=True,
    )
