"""What a meal is seldom asked: to be kept, its measures, its goals, its note, and the form."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trayturn.advice.composing.draft import Line
from trayturn.advice.composing.ground import Goals, Ground
from trayturn.advice.composing.rationing import Rationed
from trayturn.advice.composing.telling import percent
from trayturn.advice.composing.writing import meal_of
from trayturn.domain.entries import MealDropped, MeasureSet
from trayturn.domain.units import UnitError, parse_mass, show_mass, split_quantity
from trayturn.domain.words import clean, day
from trayturn.tui.widgets.choose import Choice, Choose
from trayturn.tui.widgets.type_in import TypeIn

if TYPE_CHECKING:
    from trayturn.advice.composing.composed import Composed
    from trayturn.tui.screens.feed.screen import FeedScreen

LONGEST_NAME, LONGEST_NOTE = 60, 20_000
MOISTURE, RATIO = (40, 95), (5, 200)
"""The goals that can be asked for: percent, and carbon to nitrogen."""


async def ask(screen: FeedScreen, made: Composed) -> None:
    """Offer what can be done beside the meal itself, and do it."""
    goals, note = made.ground.goals, made.draft.note
    choices: list[Choice] = [
        ("keep", "Keep this meal under a name", "g then offers it"),
        ("measures", "What your handful, cup and bowl weigh", ""),
        ("goals", "Goals", f"{percent(goals.moisture)} moisture, C:N {goals.c_to_n:g}"),
        ("note", "A note to keep with it", clean(note, 24)),
        ("form", "Feed by form", "also for a past day"),
    ]
    if made.ground.stack.meals:
        choices.insert(1, ("drop", "Drop a kept meal", ""))
    chosen = await screen.app.push_screen_wait(Choose("More about this meal", choices))
    acts = {"keep": keep, "drop": drop, "measures": set_measure, "goals": set_goals, "note": note_down}
    if chosen == "form":
        screen.action_feed_by_form()
    elif chosen is not None:
        await acts[chosen](screen, made)


async def type_amount(screen: FeedScreen, made: Composed, line: Line) -> None:
    """Type how much of a line: a weight, or so many of a measure."""
    measures, most = made.ground.measures, made.ground.most_kg

    def trouble(text: str) -> str | None:
        try:
            measures.read(text, line.name, most) if text.strip() else None
        except UnitError as slip:
            return str(slip)
        return None

    now = f"now {_mass(line.kg, made.ground)}; such as {measures.hint()}"
    text = await screen.app.push_screen_wait(TypeIn(f"How much {clean(line.name, 60)}?", "", now, trouble))
    if text and text.strip() and screen.made is not None:
        amount = measures.read(text, line.name, most)
        screen.change(screen.made.draft.set(line.part, line.name, amount.kg, amount.measure))


async def keep(screen: FeedScreen, made: Composed) -> None:
    """Keep the meal under a name, to be fed again."""
    if made.draft.empty:
        screen.say("There is nothing in it to keep.")
        return

    def trouble(text: str) -> str | None:
        if not 1 <= len(text.strip()) <= LONGEST_NAME:
            return f"A name has from 1 to {LONGEST_NAME} letters."
        return None

    name = await screen.app.push_screen_wait(TypeIn("Keep it as", "", "such as Sunday", trouble))
    if name is not None:
        kept = meal_of(made.draft, name.strip(), screen.house.now)
        screen.house.save(screen.key, [kept], "Meal kept. u takes it back")


async def drop(screen: FeedScreen, made: Composed) -> None:
    """A kept meal is no longer wanted."""
    kept = [(meal.name, meal.name, "") for meal in made.ground.stack.meals]
    name = await screen.app.push_screen_wait(Choose("Drop which meal?", kept))
    if name is not None:
        dropped = MealDropped(at=screen.house.now, name=name)
        screen.house.save(screen.key, [dropped], "Meal dropped. u takes it back")


async def set_measure(screen: FeedScreen, made: Composed) -> None:
    """What a measure weighs: of the marked thing, or of anything."""
    ground, line = made.ground, screen.line
    of = line.name if line is not None else ""
    choices: list[Choice] = []
    for word in ground.measures.words:
        if of:
            choices.append((f"{word}\t{of}", f"a {word} of {of}", _now(word, of, ground)))
        choices.append((f"{word}\t", f"a {word} of anything", ""))
    chosen = await screen.app.push_screen_wait(Choose("Which measure?", choices))
    if chosen is None:
        return
    word, _, of = chosen.partition("\t")

    def trouble(text: str) -> str | None:
        try:
            fits = 0 < parse_mass(text, ground.units) <= ground.most_kg
        except UnitError as slip:
            return str(slip)
        return None if fits else f"It weighs more than nothing, and at most {_mass(ground.most_kg, ground)}."

    example = "2 oz" if ground.units == "us" else "60 g"
    title = f"What does a {word}{f' of {of}' if of else ''} weigh?"
    text = await screen.app.push_screen_wait(TypeIn(title, "", f"such as {example}", trouble))
    if text is not None:
        kg = parse_mass(text, ground.units)
        entry = MeasureSet(at=screen.house.now, measure=word, kg=kg, of=of)
        screen.house.save(screen.key, [entry], "Measure set. u takes it back")


def _now(word: str, of: str, ground: Ground) -> str:
    weighed = ground.measures.weigh(word, of)
    if weighed is None:
        return "not known"
    return f"now {_mass(weighed.kg, ground)}, {'yours' if weighed.own else 'rule of thumb'}"


def _mass(kg: float, ground: Ground) -> str:
    return show_mass(kg, ground.units)


async def set_goals(screen: FeedScreen, made: Composed) -> None:
    """What the tray is to be like after the meal, until the program is left."""
    goals = made.ground.goals
    moisture = await _number(screen, "Moisture of the tray after it, %", 100 * goals.moisture, MOISTURE)
    ratio = None if moisture is None else await _number(screen, "C:N of the tray", goals.c_to_n, RATIO)
    if moisture is not None and ratio is not None:
        screen.set_goals(Goals(moisture / 100, ratio))


async def _number(screen: FeedScreen, title: str, now: float, within: tuple[int, int]) -> float | None:
    low, high = within

    def trouble(text: str) -> str | None:
        try:
            number, unit = split_quantity(text, f"{now:g}")
        except UnitError as slip:
            return str(slip)
        return None if low <= number <= high and unit in ("", "%") else f"It is from {low} to {high}."

    text = await screen.app.push_screen_wait(TypeIn(title, f"{now:g}", "", trouble))
    return None if text is None else split_quantity(text)[0]


async def note_down(screen: FeedScreen, made: Composed) -> None:
    """Words of the keeper's own, to be written with the meal."""

    def trouble(text: str) -> str | None:
        return f"The most is {LONGEST_NOTE} letters." if len(text) > LONGEST_NOTE else None

    text = await screen.app.push_screen_wait(TypeIn("A note with this meal", made.draft.note, "", trouble))
    if text is not None:
        screen.with_note(text.strip())


def shared(found: Rationed, ground: Ground) -> list[str]:
    """What goes in now and why, and what waits until when."""
    told = ["Now, in this order: what spoils and leaks soonest first.", ""]
    for place, going in enumerate(found.now, 1):
        told.append(f"  {place}. {clean(going.name, 60)}, {_mass(going.kg, ground)}: {going.why}.")
    if not found.now:
        told.append("  nothing")
    if found.later:
        told += ["", "Waits in the caddy:", ""]
    for one in found.later:
        until = f"until {day(one.day, ground.stack.as_of)}" if one.day is not None else "not to be fed"
        told.append(f"  {clean(one.name, 60)}, {_mass(one.kg, ground)}, {until}. {one.why}")
    return told
