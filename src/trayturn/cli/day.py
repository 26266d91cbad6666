"""`day`: the turn day under way, or the plan of one, with everything that it takes."""

from __future__ import annotations

import math
from argparse import Namespace
from collections.abc import Sequence
from typing import Any

from trayturn.advice.pantry import pantry_of
from trayturn.advice.turn_day.counting import choices
from trayturn.advice.turn_day.jobs import hands_free, job_words, jobs
from trayturn.advice.turn_day.lifts import LiftTold
from trayturn.advice.turn_day.needs import Needs
from trayturn.advice.turn_day.plan import DayPlan, Wish, plan_day, spare_trays
from trayturn.advice.turn_day.plan_words import full_lines
from trayturn.advice.turn_day.tasks import DayView, Task, view_day
from trayturn.advice.turn_day.telling import resting, step_lines, to_do_now, where_words
from trayturn.advice.turn_day.whole import Whole, whole_day
from trayturn.cli import amounts, as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_all, open_bin, readable, stack_asked
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.entries import Stage
from trayturn.domain.profile import Profile
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, listed

STAGES = (Stage.BEDDING, Stage.FEEDING, Stage.FINISHING)


def day(options: Namespace, clock: Clock) -> int:
    """Print where a turn day stands, or what one would be."""
    profile = readable(open_bin(options))
    stack = stack_asked(options, profile, clock())
    if (view := view_day(stack)) is not None:
        _tell_view(view, stack, options)
        return 0
    wish = _wish(options, profile, stack)
    whole = whole_day(stack, pantry_of(profile), wish)
    if options.json:
        as_json.print_json(_plan_data(whole, stack))
    else:
        _print_plan(whole, stack, Page(options.ascii))
    return 0


def _wish(options: Namespace, profile: Profile, stack: Stack) -> Wish:
    """What was asked for otherwise than usual. Raises `Refused`."""
    bedding = amounts.masses(options.bedding, "--bedding", profile.bin.units)
    fewer = options.fewer or options.no_fresh
    if fewer and options.more:
        raise Refused("--fewer and --more cannot both be asked for.")
    if options.order:
        if options.fewer or options.more:
            raise Refused("--order already says which trays stand: leave --fewer and --more out.")
        return _by_hand(options, profile, stack, bedding)
    if not fewer and not options.more:
        return Wish(bedding_kg=bedding)
    wishes = [one.wish for one in choices(stack)]
    if fewer and Wish(bring=False) not in wishes:
        raise Refused("One tray fewer cannot be had: no tray could be fed then, or none comes in.")
    if options.more and Wish(more=1) not in wishes:
        stand = len(plan_day(stack).at_last)
        raise Refused(f"No spare tray is left to come in: {stand} stand after the usual turn.")
    return Wish(bring=not fewer, more=int(options.more), bedding_kg=bedding)


def _by_hand(options: Namespace, profile: Profile, stack: Stack, bedding: dict[str, float]) -> Wish:
    """`C,A=finishing,B=feeding`, bottom first. Raises `Refused`."""
    usual = plan_day(stack)
    known = [*(tray.id for tray in profile.trays), *(tray.id for tray in (*stack.trays, *stack.off_stack))]
    known = list(dict.fromkeys([*known, *usual.fresh]))
    order: list[str] = []
    stages: dict[str, Stage] = {}
    for part in options.order.split(","):
        tray, stage = _part(part, known)
        if tray in order:
            raise Refused(f"--order: tray {tray} is named twice.")
        if stack.separation(tray) is not None:
            raise Refused(f"--order: tray {tray} is being separated; it stays on top until that is over.")
        if options.no_fresh and tray in spare_trays(stack):
            raise Refused(f"--order: tray {tray} is a fresh one, and --no-fresh leaves those out.")
        order.append(tray)
        stages |= {tray: stage} if stage else {}
    return Wish(bring=not options.no_fresh, order=tuple(order), stages=stages, bedding_kg=bedding)


def _part(part: str, known: Sequence[str]) -> tuple[str, Stage | None]:
    """One tray of a typed order, with its stage if that is named. Raises `Refused`."""
    name, _, stage = (piece.strip() for piece in part.partition("="))
    tray = next((one for one in known if one.casefold() == name.casefold()), None)
    if tray is None:
        raise Refused(f"--order: there is no tray {clean(name, 20)!r}; its trays are {listed(known)}.")
    if stage and stage.casefold() not in STAGES:
        raise Refused(f"--order: {clean(stage, 20)!r} is no stage; write one of {', '.join(STAGES)}.")
    return tray, Stage(stage.casefold()) if stage else None


def _plan_data(whole: Whole, stack: Stack) -> dict[str, Any]:
    plan = whole.plan
    return {
        "bin": stack.key,
        "under_way": False,
        "moves": [_move(plan, stack, tray) for tray in reversed(plan.whole)],
        "fresh": list(plan.fresh),
        "comes_back": plan.comes_back,
        "fed": plan.fed,
        "places_needed": whole.places,
        "places_lacking": whole.lacking,
        "lifts": [_lift(told) for told in whole.lifts],
        "lifts_back": [_lift(told) for told in whole.back],
        "minutes": whole.time.minutes._asdict(),
        "minutes_hands": whole.time.hands._asdict(),
        "minutes_rest_on": whole.time.basis,
        "own_days": whole.time.days,
        "bedding": _bedding(whole.needs),
        "meal": _meal(whole.needs),
        "not_ready": [{"code": one.code, "what": one.what, "to_do": one.to_do} for one in whole.waits],
        "unwise": list(plan.wrong),
        "tools": list(whole.tools),
        "cautions": [one.code for one in whole.cautions],
        "choices": [
            {"trays": one.number, "does": one.does, "suggested_for": one.why or None}
            for one in choices(stack)
        ],
    }


def _bedding(needs: Needs) -> dict[str, Any] | None:
    need = needs.bedding
    if need is None:
        return None
    return {
        "name": need.bedding,
        "trays": list(need.trays),
        "need_kg": need.need._asdict(),
        "rests_on": need.basis,
        "stock_kg": need.stock_kg,
        "others_kg": need.others_kg,
        "short_kg": need.short_kg if need.stock_kg is not None else None,
    }


def _meal(needs: Needs) -> dict[str, Any] | None:
    meal = needs.meal
    if meal is None:
        return None
    return {
        "tray": meal.tray,
        "scraps_kg": meal.scraps._asdict() if meal.scraps is not None else None,
        "bedding_kg": meal.bedding._asdict() if meal.bedding is not None else None,
        "meals": meal.meals,
        "caddy_kg": meal.caddy_kg,
    }


def _move(plan: DayPlan, stack: Stack, tray_id: str) -> dict[str, Any]:
    tray = stack.tray(tray_id)
    away = tray_id in plan.separating
    return {
        "tray": tray_id,
        "from_level": tray.level if tray is not None else None,
        "from_stage": str(tray.stage) if tray is not None and tray.on_stack else None,
        "to_level": plan.at_last.index(tray_id) + 1 if tray_id in plan.at_last else None,
        "to_stage": "separating" if away else str(plan.stages[tray_id]),
    }


def _lift(told: LiftTold) -> dict[str, Any]:
    return {
        "tray": told.lift.tray,
        "from": told.lift.source,
        "to": told.lift.target,
        "kg": told.kg._asdict(),
        "rests_on": told.basis,
        "from_m": round(told.from_m, 3),
        "to_m": round(told.to_m, 3),
        "lifting_index": round(told.index, 2) if math.isfinite(told.index) else None,
    }


def _print_plan(whole: Whole, stack: Stack, page: Page) -> None:
    if not whole.plan.order:
        page.line("There is nothing to turn yet: no tray is on the stack.")
        return
    page.line(f"A turn day of {clean(stack.setup.name, 60)}, from the top down:")
    for tray_id in reversed(whole.plan.whole):
        move = _move(whole.plan, stack, tray_id)
        was = f"was {move['from_stage']} on {move['from_level']}" if move["from_stage"] else "comes in fresh"
        level = f"level {move['to_level']}, {move['to_stage']}"
        if tray_id in whole.plan.separating:
            back = f", then back fresh on level {move['to_level']}" if move["to_level"] else ""
            level = f"to be separated{back}"
        page.line(f"Tray {tray_id}: {level} ({was})", 2)
    page.line("")
    for line in full_lines(whole, stack):
        page.line(line, hanging=2 if line[:2] == "- " else 3 if line[:1].isdigit() else 0)


def _at_work(stack: Stack, options: Namespace) -> list[Stack]:
    """This bin and the others that can be read: one pair of hands serves them all."""
    found = [one.profile for one in open_all(options) if one.profile is not None and not one.problems]
    others = (stack_asked(options, profile, stack.as_of) for profile in found if profile.key != stack.key)
    return [stack, *others]


def _tell_view(view: DayView, stack: Stack, options: Namespace) -> None:
    """The day under way: its steps, what is next, and what fits into a rest."""
    waits = _at_work(stack, options) if resting(view, stack) else []
    fitting = jobs(stack, hands_free(waits, stack.as_of), stack.as_of)
    now = to_do_now(view, stack)
    if options.json:
        data = {"bin": stack.key, "under_way": True, "begun": view.day.begun_at.isoformat(), "next": now}
        data |= {"tasks": [_task(task) for task in view.tasks], "jobs": [job.what for job in fitting]}
        data |= _standing(view, stack)
        as_json.print_json(data)
        return
    page = Page(options.ascii)
    page.line(f"A turn day of {clean(stack.setup.name, 60)} is under way. Next: {now}")
    page.lines(where_words(view))
    for line in step_lines(view):
        so_far = f", {line.so_far}" if line.so_far else ""
        page.line(f"{line.title}: {line.standing}{so_far}", 2)
    for job in fitting:
        page.line(f"While it rests: {job_words(job)}")


def _standing(view: DayView, stack: Stack) -> dict[str, Any]:
    """Where the trays are at this moment, and the separations that run."""
    spots = view.spots if view.lifted or view.beside else None
    return {
        "lifts_left": len(view.moving.lifts) - view.lifts_done,
        "stack_now": list(spots.stack) if spots is not None else [tray.id for tray in stack.trays],
        "places_now": [list(pile) for pile in spots.places] if spots is not None else [],
        "separating": [one.tray for one in stack.separations],
    }


def _task(task: Task) -> dict[str, Any]:
    return {
        "step": str(task.step),
        "tray": task.tray,
        "number": task.number,
        "standing": str(task.standing),
    }
