"""The stack in words: the text twin of its drawing, one sentence a tray, and the longer story of each."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING

from trayturn.advice.feeding import feed_next
from trayturn.advice.phrases import aged, when
from trayturn.advice.reading import moisture_caution, moisture_of, moisture_words
from trayturn.advice.turning import Move
from trayturn.domain.entries import Checked, Stage, Step
from trayturn.domain.setup import Units
from trayturn.domain.stack import Separation, Stack, TrayState, days_between
from trayturn.domain.units import show_mass, show_temperature, three_figures
from trayturn.domain.words import clean, clock, count, listed, masses, span

if TYPE_CHECKING:
    from trayturn.advice.pantry import Pantry

NUMBERS = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten")
DOES = {
    Stage.FEEDING: ("is fed", "are fed"),
    Stage.FINISHING: ("finishes", "finish"),
    Stage.SEPARATING: ("is being separated", "are being separated"),
}
WAITS = ("waits as bedding", "wait as bedding")
GOES_ON = {
    Stage.BEDDING: "goes on as bedding",
    Stage.FEEDING: "goes on being fed",
    Stage.FINISHING: "goes on finishing",
}
DOING = {
    Step.GET_READY: "getting ready",
    Step.LOOSEN: "loosening",
    Step.REST: "resting",
    Step.SKIM: "skimming",
    Step.DECIDE: "deciding",
    Step.SETTLE: "settling",
    Step.CLEAN_UP: "cleaning up",
}
NAMES = {step: str(step).replace("_", " ") for step in Step} | {Step.LOOSEN: "loosening"}
THEN = {
    Step.GET_READY: "loosen",
    Step.LOOSEN: "let it rest",
    Step.REST: "skim",
    Step.SKIM: "decide whether to go on",
    Step.DECIDE: "loosen again, or settle",
    Step.SETTLE: "clean up",
    Step.CLEAN_UP: "finish",
}
IN_A_PASS = (Step.LOOSEN, Step.REST, Step.SKIM, Step.DECIDE)


def stack_sentence(stack: Stack) -> str:
    """The bin at a glance: `Four trays, 812 days old. Tray B is fed; tray C finishes.`

    Bedding is not told of unless there is nothing else.
    """
    number = len(stack.trays)
    if not number:
        return "No tray is on the stack."
    word = NUMBERS[number] if number < len(NUMBERS) else str(number)
    age = f", {aged(days_between(stack.began_at, stack.as_of))} old" if stack.began_at else ""
    parts = [_does(stack.in_stage(stage), *verbs) for stage, verbs in DOES.items()]
    told = "; ".join(part for part in parts if part) or _does(stack.trays, *WAITS)
    return f"{word} {'tray' if number == 1 else 'trays'}{age}. {told[:1].upper()}{told[1:]}."


def _does(trays: tuple[TrayState, ...], one_does: str, many_do: str) -> str:
    if not trays:
        return ""
    names = listed(tray.id for tray in trays)
    return f"tray {names} {one_does}" if len(trays) == 1 else f"trays {names} {many_do}"


def tray_line(tray: TrayState, stack: Stack) -> str:
    """One sentence a tray: its level, stage, ages, feedings and moisture, and whether to feed it next."""
    if tray.level is None:
        return f"Tray {tray.id}, off the stack: spare since {_day_of(tray.stage_since, stack)}."
    top = ", the top" if tray.level == len(stack.trays) > 1 else ""
    parts = [_ages(tray), _fed_words(tray, stack.setup.units), moisture_words(tray, stack)]
    feed = feed_next(stack)
    mark = " Feed this one next." if tray.id == (feed.tray or feed.instead) else ""
    return f"Tray {tray.id} on level {tray.level}{top}, {tray.stage}: {'; '.join(parts)}.{mark}"


def _ages(tray: TrayState) -> str:
    on_stack = f"{aged(tray.days_on_stack)} on the stack"
    if tray.stage_since == tray.started_at:
        return on_stack
    return f"{on_stack}, {aged(tray.days_in_stage)} {tray.stage}"


def _fed_words(tray: TrayState, units: Units) -> str:
    if not tray.feedings:
        return "not fed yet"
    return f"{count(tray.feedings, 'feeding')}, {show_mass(tray.fed_kg, units)} of scraps"


def _day_of(moment: datetime, stack: Stack) -> str:
    return when(moment, stack.as_of).removeprefix("on ")


def tray_story(tray: TrayState, stack: Stack, pantry: Callable[[], Pantry] | None = None) -> list[str]:
    """What is in the tray, when it was fed, checked and weighed, a line each.

    With a pantry at hand it tells how much puts the moisture right.
    """
    lines = [tray_line(tray, stack)]
    if tray.level is None:
        return lines
    lines += _contents(tray, stack.setup.units)
    if tray.last_fed_at is not None:
        lines.append(f"Last fed {when(tray.last_fed_at, stack.as_of)}.")
    if tray.last_check is not None:
        lines.append(_check_line(tray.last_check, stack))
    if moisture_of(tray).comfortable is False:
        caution = moisture_caution(tray, _put_right(tray, stack, pantry()) if pantry is not None else "")
        lines.append(f"Moisture: {moisture_words(tray, stack)}. {caution}")
    lines += _weight(tray, stack)
    running = stack.separation(tray.id)
    return [*lines, separation_line(running, stack.as_of)] if running else lines


def _put_right(tray: TrayState, stack: Stack, pantry: Pantry) -> str:
    """The water or bedding for the last moisture reading, in a sentence."""
    from trayturn.advice.checking.moisture import to_do_about

    return to_do_about(tray, stack, pantry)


def _contents(tray: TrayState, units: Units) -> list[str]:
    parts = []
    if tray.bedding_kg:
        parts.append(f"Bedding: {masses(tray.bedding_kg, units)}.")
    if tray.scraps_kg:
        parts.append(f"Scraps: {masses(tray.scraps_kg, units)}.")
    extras = [("Water poured on", tray.water_kg), ("Grit", tray.grit_kg)]
    parts += [f"{name}: {show_mass(kg, units)}." for name, kg in extras if kg]
    return parts or ["What it was filled with was not noted."]


def _check_line(check: Checked, stack: Stack) -> str:
    readings = [
        check.feel and f"feels {check.feel}",
        check.moisture_pct is not None and f"moisture {check.moisture_pct:.0f} %",
        check.temperature_c is not None and show_temperature(check.temperature_c, stack.setup.units),
        check.ph is not None and f"pH {three_figures(check.ph)}",
        check.smell and f"smell: {clean(check.smell, 40)}",
        check.strays and f"strays: {check.strays}",
    ]
    told = ", ".join(reading for reading in readings if reading)
    return f"Last checked {when(check.at, stack.as_of)}" + (f": {told}." if told else ".")


def _weight(tray: TrayState, stack: Stack) -> list[str]:
    if tray.gross_kg is None or tray.weighed_at is None:
        return []
    units = stack.setup.units
    held = show_mass(max(0.0, tray.gross_kg - tray.empty_kg), units)
    gross = show_mass(tray.gross_kg, units)
    return [f"Weighed {when(tray.weighed_at, stack.as_of)}: {gross}, of which {held} is contents."]


def separation_line(separation: Separation, now: datetime) -> str:
    """Where a separation stands: `Tray C: pass 2, resting, 4 min left, ends 10:52; then skim.`"""
    step = separation.step
    if step is None:
        last = separation.steps[-1].step if separation.steps else None
        return f"Tray {separation.tray}: next, {THEN[last] if last else 'get ready'}."
    place = f"pass {separation.pass_number}, " if step.step in IN_A_PASS else ""
    tray = f"Tray {separation.tray}: {place}"
    who = f"{tray}{DOING[step.step]}"
    then = THEN[step.step]
    if step.ends_at is None:
        return f"{who} since {clock(step.started_at, now)}; then {then}."
    if now < step.started_at:
        return f"{who}; the clock was set back since it began, so look at the worms; then {then}."
    left = step.ends_at - now
    if left.total_seconds() <= 0:
        return f"{tray}{NAMES[step.step]} ended {clock(step.ends_at, now)}, {span(left)} ago; now {then}."
    return f"{who}, {span(left)} left, ends {clock(step.ends_at, now)}; then {then}."


def move_line(move: Move) -> str:
    """One move of a turn as a sentence."""
    if move.to_level is None:
        return f"Tray {move.tray} leaves level {move.from_level} to be separated."
    if move.from_level is None:
        fed = ", and is fed" if move.to_stage is Stage.FEEDING else ""
        return f"Tray {move.tray} comes in on level {move.to_level} with fresh bedding{fed}."
    place = f"goes from level {move.from_level} to {move.to_level}"
    if move.from_level == move.to_level:
        place = f"stays on level {move.to_level}"
    return f"Tray {move.tray} {place}, and {_becomes(move)}."


def _becomes(move: Move) -> str:
    if move.from_stage is move.to_stage:
        return GOES_ON.get(move.to_stage, "stays as it is")
    return "is fed" if move.to_stage is Stage.FEEDING else "finishes"
