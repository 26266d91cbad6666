"""The next turn: when it is due, and what every tray becomes.

The moves show the stack as it stands once the turn and the separation of the leaving tray are both over. The
two may be done in either order, by one rule: **a tray that leaves stands on top of the stack until its
separation is over.** So

* separated first: the tray is spare by the day of the turn, and the turn only brings the fresh tray in;
* turned during the separation: the tray stays on top and its separation goes on;
* turned first: the tray is put on top, still finishing, and its separation is begun there;
* where no other tray is free, the leaving tray is itself the fresh one. It comes back after its separation,
  with a `tray_started` entry of its own (`fresh_entry`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.advice.phrases import aged, every, since
from trayturn.advice.roles import Roles, oldest_bedding, roles_of
from trayturn.domain.entries import Entry, Stage, TrayStarted, Turned
from trayturn.domain.setup import Pattern
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.words import due as in_days
from trayturn.domain.words import listed

MOST_IN_AN_ENTRY = 20


@dataclass(frozen=True, slots=True)
class Move:
    """What one tray becomes. Levels count from 1 at the bottom; None is off the stack.

    A tray that leaves has `to_level` None and goes to be separated; a fresh tray comes from None. A tray that
    leaves and comes back fresh has two moves, the leaving one first.
    """

    tray: str
    from_level: int | None
    to_level: int | None
    from_stage: Stage | None
    to_stage: Stage


@dataclass(frozen=True, slots=True)
class NextTurn:
    """The next turn. `due` is None while no tray is fed, and `ready` is True from that moment on.

    `fresh` is the tray that comes in, and `fed` the one that is fed after the turn, if there are any.

    Moves run as a person reads the stack: who leaves, the others from the top down, the fresh tray last.
    """

    due: datetime | None
    ready: bool
    what: str
    why: tuple[str, ...]
    moves: tuple[Move, ...] = ()
    fresh: str | None = None
    fed: str | None = None


def next_turn(stack: Stack, *, bring: bool = True) -> NextTurn:
    """When the stack is turned next and what every tray becomes, by the bin's pattern.

    Due is the start of the feeding tray's stage and `days_between_turns`. Bedding below, a finishing tray
    leaves at every turn; straight up, only when the stack would grow too high. No tray comes in where
    there is no place for one, nor without `bring`: for a turn made without bedding.
    """
    if not stack.trays:
        return NextTurn(None, False, "No turn yet.", ("No tray is on the stack.",))
    roles = roles_of(stack, bring=bring)
    interval = timedelta(days=stack.setup.days_between_turns)
    due = roles.spent.stage_since + interval if roles.spent else None
    ready = due is not None and due <= stack.as_of
    if due is None:
        what = "No turn is due: no tray is being fed."
    elif ready and stack.separations:
        what = f"Turn the stack once {in_hand(stack)}."
    else:
        what = f"Turn the stack {'now' if ready else in_days(due, stack.as_of)}."
    return NextTurn(due, ready, what, _why(stack, roles), _moves(stack, roles), roles.fresh, roles.fed)


def in_hand(stack: Stack) -> str:
    """`tray C is separated`: what other work waits for while a separation is under way."""
    trays = [separation.tray for separation in stack.separations]
    return f"tray {trays[0]} is separated" if len(trays) == 1 else f"trays {listed(trays)} are separated"


def turn_entries(
    stack: Stack, now: datetime, bedding_kg: Mapping[str, float] | None = None, *, bring: bool = True
) -> list[Entry]:
    """The journal entries that carry out the moves of `next_turn`, all at `now`.

    `bedding_kg` is what the fresh tray is filled with; without `bring` none comes in, though one could. No
    entries for an empty stack, nor for one higher than an entry can hold.
    """
    turn = next_turn(stack, bring=bring)
    leaving = [m.tray for m in turn.moves if m.to_level is None]
    after = sorted((m for m in turn.moves if m.tray not in leaving), key=lambda m: m.to_level or 0)
    stages = {m.tray: m.to_stage for m in after}
    stages |= {tray: Stage.FINISHING for tray in leaving if stack.separation(tray) is None}
    if not stages or len(stages) > MOST_IN_AN_ENTRY:
        return []
    left_out = not bring and next_turn(stack).fresh is not None
    turned = Turned(at=now, order=tuple(stages), stages=stages, no_fresh=left_out or None)
    enters_now = turn.fresh is not None and turn.fresh not in leaving
    return [fresh_entry(stack, turn, now, bedding_kg), turned] if enters_now else [turned]


def fresh_entry(
    stack: Stack, turn: NextTurn, now: datetime, bedding_kg: Mapping[str, float] | None = None
) -> TrayStarted:
    """The fresh tray of a turn started on `stack`: at the bottom, or on top where it is fed at once.

    Raises `ValueError` for a turn that brings no tray in.
    """
    if turn.fresh is None:
        raise ValueError("This turn brings no tray in.")
    fed = turn.fed == turn.fresh
    return TrayStarted(
        at=now,
        tray=turn.fresh,
        bedding_kg=dict(bedding_kg or {}),
        level=min(len(stack.trays) + 1, MOST_IN_AN_ENTRY) if fed else 1,
        stage="feeding" if fed else "bedding",
    )


def _order(stack: Stack, roles: Roles) -> list[str]:
    """Tray ids after the turn, bottom first."""
    fed = [roles.fed] if roles.fed else []
    if stack.setup.pattern is Pattern.STRAIGHT_UP:
        return [t.id for t in roles.staying if t.id != roles.fed] + fed
    spent = [roles.spent.id] if roles.spent else []
    bottom = [roles.fresh] if roles.fresh and roles.fresh != roles.fed else []
    others = [t for t in roles.staying if t.id not in spent + fed]
    still_fed = [t.id for t in others if t.stage is Stage.FEEDING]
    return bottom + [t.id for t in others if t.id not in still_fed] + spent + still_fed + fed


def _moves(stack: Stack, roles: Roles) -> tuple[Move, ...]:
    levels = {tray_id: level for level, tray_id in enumerate(_order(stack, roles), 1)}
    moves = [Move(t.id, t.level, None, t.stage, Stage.SEPARATING) for t in roles.leaving]
    for tray in sorted(roles.staying, key=lambda t: -levels[t.id]):
        moves.append(Move(tray.id, tray.level, levels[tray.id], tray.stage, _stage_after(tray, roles)))
    if roles.fresh:
        stage = Stage.FEEDING if roles.fresh == roles.fed else Stage.BEDDING
        moves.append(Move(roles.fresh, None, levels[roles.fresh], None, stage))
    return tuple(moves)


def _stage_after(tray: TrayState, roles: Roles) -> Stage:
    if tray.id == roles.fed:
        return Stage.FEEDING
    return Stage.FINISHING if tray is roles.spent else tray.stage


def _why(stack: Stack, roles: Roles) -> tuple[str, ...]:
    lines = (
        _why_now(stack, roles),
        _why_leaving(stack, roles),
        _why_fed(stack, roles),
        _why_fresh(roles),
    )
    return tuple(line for line in lines if line)


def _why_now(stack: Stack, roles: Roles) -> str:
    if roles.spent is None:
        return "A turn is reckoned from the day a tray begins to be fed, and none is."
    fed = since(roles.spent.stage_since, stack.as_of)
    interval = every(stack.setup.days_between_turns)
    return f"Tray {roles.spent.id} has been fed {fed}, and this bin is turned {interval}. It finishes then."


def _why_leaving(stack: Stack, roles: Roles) -> str:
    if not roles.leaving:
        return "No tray leaves this time."
    first = roles.leaving[0]
    if first.stage is Stage.FINISHING:
        finished = since(first.stage_since, stack.as_of)
        return f"Tray {first.id} has been finishing {finished}, and leaves to be separated."
    if len(roles.leaving) == 1:
        return f"Tray {first.id} is being separated, and leaves."
    return f"Trays {listed(t.id for t in roles.leaving)} are being separated, and leave."


def _why_fed(stack: Stack, roles: Roles) -> str:
    tray = stack.tray(roles.fed) if roles.fed and roles.fed != roles.fresh else None
    if tray is None:
        return ""
    oldest = ", the oldest bedding" if tray == oldest_bedding(stack) else ""
    return f"Tray {tray.id}{oldest}, on the stack for {aged(tray.days_on_stack)}, is fed on top."


def _why_fresh(roles: Roles) -> str:
    if roles.fresh is None:
        return "" if roles.fed else "No tray is free to come in, and no bedding waits to be fed."
    place = "on top, and is fed" if roles.fresh == roles.fed else "at the bottom"
    after = f"After its separation tray {roles.fresh}" if roles.comes_back else f"Tray {roles.fresh}"
    return f"{after} comes in with fresh bedding {place}."
