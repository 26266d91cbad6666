"""The plan of a turn day: what every tray becomes, as the pattern says or as the keeper wishes it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime

from trayturn.advice.turn_day.moving import brought_back
from trayturn.advice.turning import next_turn
from trayturn.domain.entries import Entry, Stage, TrayStarted, TurnDayBegun, Turned
from trayturn.domain.stack import Stack
from trayturn.domain.words import listed

STANDS = (Stage.BEDDING, Stage.FEEDING, Stage.FINISHING)
MOST_TRAYS = 20
"""As many as an entry holds."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What the keeper wants otherwise than the pattern has it.

    Without `bring` no fresh tray comes in: one tray fewer. `more` spare trays come in beside it. `order` is a
    stack arranged by hand, bottom first, without what is separated; `stages` what its trays then do. A tray
    whose separation is under way stays on top whatever the order says.
    `bedding_kg` is what each fresh tray is filled with.
    """

    bring: bool = True
    more: int = 0
    order: tuple[str, ...] = ()
    stages: Mapping[str, Stage] = field(default_factory=dict)
    bedding_kg: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class DayPlan:
    """The stack that a turn day leaves. `order` is bottom first, without the trays that are `separating`.

    `fresh` come in with bedding; one that `comes_back` does so only after its separation, and `at_last` is
    the stack with it. `fed` is fed from then on. `left_out` says that a fresh tray could have come in and
    does not. `places_beside` and `trays_on_a_place` are the room there is for the lifts.
    """

    order: tuple[str, ...] = ()
    stages: Mapping[str, Stage] = field(default_factory=dict)
    separating: tuple[str, ...] = ()
    fresh: tuple[str, ...] = ()
    comes_back: str | None = None
    fed: str | None = None
    left_out: bool = False
    by_hand: bool = False
    bedding_kg: Mapping[str, float] = field(default_factory=dict)
    wrong: tuple[str, ...] = ()
    places_beside: int | None = None
    trays_on_a_place: int | None = None
    at_last: tuple[str, ...] = ()

    @property
    def whole(self) -> tuple[str, ...]:
        """The stack with the trays that are separated on top of it, bottom first."""
        return (*self.order, *self.separating)


def plan_day(stack: Stack, wish: Wish | None = None) -> DayPlan:
    """The plan of a turn made now. Empty for a stack without trays."""
    wish = wish or Wish()
    if not stack.trays:
        return DayPlan()
    plan = _by_hand(stack, wish) if wish.order else _by_pattern(stack, wish)
    room = stack.setup
    last = brought_back(plan.order, plan.comes_back, room.pattern)
    beside, high = room.places_beside, room.trays_on_a_place
    return replace(plan, places_beside=beside, trays_on_a_place=high, at_last=last)


def _by_pattern(stack: Stack, wish: Wish) -> DayPlan:
    turn = next_turn(stack, bring=wish.bring)
    leaving = tuple(move.tray for move in turn.moves if move.to_level is None)
    stay = sorted((m for m in turn.moves if m.tray not in leaving), key=lambda move: move.to_level or 0)
    comes_back = turn.fresh if turn.fresh in leaving else None
    usual = () if turn.fresh is None or comes_back else (turn.fresh,)
    extra = spare_trays(stack, (*leaving, *usual))[: max(0, wish.more)]
    order = (*extra, *(move.tray for move in stay))
    stages = {move.tray: move.to_stage for move in stay} | dict.fromkeys(extra, Stage.BEDDING)
    return DayPlan(
        order,
        {tray: stages[tray] for tray in order},
        _to_separate(stack, leaving),
        (*usual, *extra),
        comes_back,
        turn.fed,
        not wish.bring and next_turn(stack).fresh is not None,
        bedding_kg=dict(wish.bedding_kg),
    )


def _by_hand(stack: Stack, wish: Wish) -> DayPlan:
    """The order as it was put; a tray that stood and is not in it is separated."""
    running = {one.tray for one in stack.separations}
    order = tuple(tray for tray in dict.fromkeys(wish.order) if tray not in running)
    standing = [tray.id for tray in stack.trays]
    separating = _to_separate(stack, [tray for tray in standing if tray not in order])
    stages = {tray: _stage(stack, tray, wish) for tray in order}
    fresh = tuple(tray for tray in order if tray not in standing)
    fed = next((tray for tray in reversed(order) if stages[tray] is Stage.FEEDING), None)
    usual = next_turn(stack)
    out = not wish.bring and not fresh and usual.fresh is not None
    back = usual.fresh if wish.bring and not fresh and usual.fresh in separating else None
    if fed is None and back is not None and usual.fed == back:
        fed = back
    bedding = dict(wish.bedding_kg)
    plan = DayPlan(order, stages, separating, fresh, back, fed, out, by_hand=True, bedding_kg=bedding)
    return replace(plan, wrong=tuple(_wrong(stack, plan)))


def _to_separate(stack: Stack, leaving: Iterable[str]) -> tuple[str, ...]:
    """Trays to be separated in the order they stand in; one that is being separated already goes on."""
    gone = set(leaving)
    return tuple(tray.id for tray in stack.trays if tray.id in gone)


def _stage(stack: Stack, tray_id: str, wish: Wish) -> Stage:
    """What a tray does by hand: as wished, else as it does now; a fresh one is bedding."""
    wished = wish.stages.get(tray_id)
    if wished in STANDS:
        return Stage(wished)
    tray = stack.tray(tray_id)
    standing = tray is not None and tray.on_stack and tray.stage in STANDS
    return tray.stage if standing and tray is not None else Stage.BEDDING


def _wrong(stack: Stack, plan: DayPlan) -> Iterable[str]:
    """What is unwise in an order by hand. The choice is the keeper's."""
    order, stages = plan.order, plan.stages
    fed = [tray for tray in order if stages[tray] is Stage.FEEDING]
    if not fed and plan.fed is None:
        yield "No tray would be fed: worms follow the food. Give one the stage feeding."
    if len(fed) > 1:
        yield f"Trays {listed(fed)} would all be fed: worms split up between them."
    if fed and order[-1] not in fed:
        above = order[order.index(fed[-1]) + 1 :]
        yield f"Tray {listed(above)} would stand on the feeding tray: lifted off for each meal."
    if eaten := _called_bedding(stack, plan):
        yield f"Tray {listed(eaten)} would count as bedding, but has been fed: it is no dry bedding any more."
    unready = [t for t in plan.separating if (one := stack.tray(t)) and one.stage is Stage.FEEDING]
    if unready:
        yield f"Tray {listed(unready)} would be separated straight from feeding: most worms are in it."
    bedding = [t for t in plan.separating if (one := stack.tray(t)) and one.stage is Stage.BEDDING]
    if bedding:
        yield f"Tray {listed(bedding)} is bedding and holds no castings to separate yet."


def _called_bedding(stack: Stack, plan: DayPlan) -> list[str]:
    """Trays that have been fed and are to count as fresh bedding."""
    stood = {tray.id for tray in stack.trays if tray.stage is not Stage.BEDDING}
    return [tray for tray in plan.order if plan.stages[tray] is Stage.BEDDING and tray in stood]


def spare_trays(stack: Stack, taken: Iterable[str] = ()) -> tuple[str, ...]:
    """The trays of the set that are off the stack and not spoken for, in the set's order."""
    gone = {tray.id for tray in stack.trays} | set(taken)
    used = [tray.id for tray in stack.off_stack]
    return tuple(tray for tray in dict.fromkeys((*stack.listed_trays, *used)) if tray not in gone)


def day_entries(plan: DayPlan, now: datetime) -> list[Entry]:
    """The entry that begins the day; none where there is nothing to turn."""
    if not plan.order or len(plan.whole) > MOST_TRAYS:
        return []
    return [
        TurnDayBegun(
            at=now,
            order=plan.whole,
            stages=dict(plan.stages) | dict.fromkeys(plan.separating, Stage.FINISHING),
            separating=plan.separating,
            fresh=plan.fresh[0] if plan.fresh else None,
            bedding_kg=dict(plan.bedding_kg),
            no_fresh=plan.left_out or None,
            comes_back=plan.comes_back,
            comes_back_as=Stage.FEEDING if plan.comes_back and plan.fed == plan.comes_back else None,
            places_beside=plan.places_beside,
            trays_on_a_place=plan.trays_on_a_place,
        )
    ]


def turn_now_entries(stack: Stack, plan: DayPlan, now: datetime) -> list[Entry]:
    """The turn as planned, written at once: it was made without the guide. None for an empty plan."""
    begun = [entry for entry in day_entries(plan, now) if isinstance(entry, TurnDayBegun)]
    return turn_of(stack, begun[0], now) if begun else []


def turn_of(stack: Stack, begun: TurnDayBegun, now: datetime) -> list[Entry]:
    """What the moves of a planned day write once the trays stand: fresh trays started, and the turn."""
    standing = [tray.id for tray in stack.trays]
    order = _as_it_stands(stack, begun)
    entries: list[Entry] = [
        TrayStarted(
            at=now,
            tray=tray,
            bedding_kg=dict(begun.bedding_kg),
            stage="feeding" if begun.stages.get(tray) is Stage.FEEDING else "bedding",
        )
        for tray in order
        if tray not in standing
    ]
    stages = {tray: stage for tray, stage in begun.stages.items() if tray in order and stage in STANDS}
    if not order:
        return entries
    return [*entries, Turned(at=now, order=order, stages=stages, no_fresh=begun.no_fresh)]


def _as_it_stands(stack: Stack, begun: TurnDayBegun) -> tuple[str, ...]:
    """The planned order, as far as it is still true: a day may have been interrupted by anything.

    Trays that left the stack meanwhile are not put back on it, and those that came in are not taken off.
    """
    standing = [tray.id for tray in stack.trays]
    day = stack.turn_day
    before = day.before if day is not None and day.plan == begun else standing
    running = {one.tray for one in stack.separations}
    planned = dict.fromkeys(begun.order)
    order = [t for t in planned if (t in standing or t not in before) and t not in running]
    for level, tray in enumerate(standing):
        if tray not in planned and tray not in running:
            order.insert(level, tray)
    return tuple(order)
