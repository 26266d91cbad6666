"""From what was typed to the entries of what follows a separation."""

from __future__ import annotations

import re

from trayturn.advice.castings.stages import filled_use_by
from trayturn.advice.castings.use import Verdict, judge
from trayturn.cli import amounts
from trayturn.cli.desk import Desk
from trayturn.cli.parsing import Refused, read_moment
from trayturn.domain.entries import Entry
from trayturn.domain.lots import Lot
from trayturn.domain.units import parse_length
from trayturn.domain.words import clean, listed

RULES = (
    "Ask your local authority first: rules for giving away and above all for selling castings differ. "
    "Read `trayturn cautions --work giving_away`, then say --rules-read."
)
PIECE = re.compile(r"^(?P<what>[^=]+?)(?:\s*=\s*(?P<count>\d+)(?:\s*[x×]\s*(?P<size>.+))?)?$")


def overs_carried(desk: Desk) -> list[Entry]:
    typed = desk.typed
    pieces = [_piece(text, desk) for text in typed.pieces]
    tray, to = desk.tray(typed.tray), desk.tray(typed.to)
    return [desk.entry("overs_carried", tray=tray, to=to, pieces=pieces)]


def _piece(text: str, desk: Desk) -> dict[str, object]:
    """`avocado stone=2x4cm`: the count and the size may be left out. Raises `Refused`."""
    match = PIECE.match(text.strip())
    if match is None:
        raise Refused(f'{clean(text, 40)!r} is not a piece, such as "avocado stone=2x4cm".')
    found: dict[str, object] = {"what": match["what"], "count": int(match["count"] or 1)}
    size = amounts.read(parse_length, match["size"], f"the size of {match['what'][:40]}", desk.units)
    return found if size is None else {**found, "size_cm": round(size * 100, 6)}


def contaminant_found(desk: Desk) -> list[Entry]:
    typed = desk.typed
    what, tray = typed.what.strip().lower(), desk.tray(typed.tray)
    return [desk.entry("contaminant_found", what=what, count=typed.count, source=typed.source, tray=tray)]


def source_stopped(desk: Desk) -> list[Entry]:
    return [desk.entry("source_stopped", source=" ".join(desk.typed.source))]


def lot_begun(desk: Desk) -> list[Entry]:
    typed = desk.typed
    if desk.stack.lot(typed.lot) is not None:
        raise Refused(f"Lot {clean(typed.lot, 20)} was begun already. Give this one another code.")
    stage = typed.stage and typed.stage.lower()
    fields = {"tray": desk.tray(typed.tray), "kg": desk.mass("weight", "--weight"), "place": typed.place}
    return [desk.entry("lot_begun", lot=typed.lot, stage=stage, **fields)]


def _code(desk: Desk) -> str:
    """The code of the lot typed. Raises `Refused`."""
    return _lot(desk).code


def _lot(desk: Desk) -> Lot:
    """The lot typed, in whatever case. Raises `Refused`."""
    found = desk.stack.lot(desk.typed.lot)
    if found is None:
        known = listed(lot.code for lot in desk.stack.lots if lot.closed_at is None)
        there = f"Its lots are {known}." if known else "It has none yet: log BIN lot-begun begins one."
        raise Refused(f"There is no lot {clean(desk.typed.lot, 20)!r} in this bin. {there}")
    return found


def lot_moved(desk: Desk) -> list[Entry]:
    typed = desk.typed
    moisture = amounts.plain_number(typed.moisture, "--moisture", "%")
    fields = {"kg": desk.mass("weight", "--weight"), "moisture_pct": moisture}
    return [desk.entry("lot_moved", lot=_code(desk), stage=typed.stage.lower(), **fields)]


def lure_set(desk: Desk) -> list[Entry]:
    return [desk.entry("lure_set", lot=_code(desk), bait=" ".join(desk.typed.bait))]


def hatchlings_recovered(desk: Desk) -> list[Entry]:
    typed = desk.typed
    fields = {"counted": typed.counted, "worms_kg": desk.mass("weight", "--weight")}
    return [desk.entry("hatchlings_recovered", lot=_code(desk), tray=desk.tray(typed.tray), **fields)]


def sieved(desk: Desk) -> list[Entry]:
    typed = desk.typed
    mesh = amounts.plain_number(typed.mesh, "--mesh", "mm")
    fields = {
        "passed_kg": desk.mass("passed", "--passed"),
        "oversize_kg": desk.mass("oversize", "--oversize"),
    }
    return [desk.entry("sieved", lot=_code(desk), mesh_mm=mesh, oversize_to=typed.to, **fields)]


def packed(desk: Desk) -> list[Entry]:
    typed = desk.typed
    lot = _lot(desk)
    use_by = read_moment(typed.use_by, "--use-by") if typed.use_by else filled_use_by(lot, desk.at)
    if typed.use_by and use_by < desk.at:
        filled = f"{desk.at:%Y-%m-%d}"
        raise Refused(f"--use-by {use_by:%Y-%m-%d} is before the filling, {filled}. Give a later day.")
    fields = {"kg": desk.mass("amount", "the amount"), "count": typed.count, "use_by": use_by}
    return [desk.entry("packed", lot=lot.code, label=typed.label, **fields)]


def castings_used(desk: Desk) -> list[Entry]:
    typed = desk.typed
    fields = {"where": typed.where, "despite": typed.despite or None}
    share = amounts.plain_number(typed.share, "--share", "%")
    told = judge(share) if share is not None else None
    if told is not None and told.verdict is Verdict.REFUSED and not typed.despite:
        raise Refused(f"{told.words} --despite writes it down all the same.")
    return [desk.entry("castings_used", lot=_code(desk), share_pct=share, **_out(desk), **fields)]


def castings_given(desk: Desk) -> list[Entry]:
    typed = desk.typed
    if not typed.rules_read:
        raise Refused(RULES)
    fields = {"to": typed.to, "sold": typed.sold or None, "rules_read": True}
    return [desk.entry("castings_given", lot=_code(desk), **_out(desk), **fields)]


def _out(desk: Desk) -> dict[str, object]:
    return {"label": desk.typed.label, "kg": desk.mass("amount", "--amount")}


def lot_closed(desk: Desk) -> list[Entry]:
    return [desk.entry("lot_closed", lot=_code(desk))]
