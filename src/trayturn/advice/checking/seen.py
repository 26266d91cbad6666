"""What is smelt and seen at a glance judged: the smell, worms astray, and worms in the tray."""

from __future__ import annotations

from datetime import timedelta

from trayturn.advice.checking.additions import Addition, bedding_for_c_to_n, dry_bedding, stock_words
from trayturn.advice.checking.history import Point
from trayturn.advice.checking.kinds import Kind
from trayturn.advice.checking.scene import Scene
from trayturn.advice.checking.smells import Smell, smell_of
from trayturn.advice.checking.verdict import Level, Verdict
from trayturn.advice.phrases import when
from trayturn.domain.entries import Amount, Stage
from trayturn.domain.stack import days_between
from trayturn.domain.units import show_length
from trayturn.domain.words import clean
from trayturn.science.limits import BEST_C_TO_N

HUNGRY = timedelta(days=7)
"""A week at least without food (Oregon Metro)."""
NEW_DAYS = 28.0
"""How long a bin counts as new for worms that stray. Our choice."""
PUT_RIGHT = "Put right leads on from here: it asks for the other signs and finds the likely cause."
FOUL_WHY = "Oregon Metro and RecycleWorks San Mateo, of bins that smell rotten."
AMMONIA_WHY = (
    "Ammonia harms worms above 0.5 mg/g (Edwards 1988, in Earthworm Ecology 2004, table 18.3).",
    "A C:N of 25 was the best of those tried (Ndegwa & Thompson 2000).",
)
SOUR_WHY = "Citrus, starch and acid; calcium carbonate, not slaked or hydrated lime (RecycleWorks San Mateo)."
STRAY_WHY = "Worms leave a bin that is too dry, too wet, too acid, too hot or new (RecycleWorks San Mateo)."
DEPTH_M = (0.10, 0.15)
"""How deep worms keep, from the top (Edwards 2011, Vermiculture Technology, ch. 1)."""


def judge_smell(point: Point, scene: Scene) -> Verdict:
    """What the smell tells. Words that tell none of it are kept and not judged."""
    words = clean(str(point.value), 60)
    smell = smell_of(str(point.value))
    if smell is Smell.EARTHY:
        return Verdict(Kind.SMELL, Level.FINE, "fine", "Fine: earthy, as it should be.", point.at)
    if smell is Smell.ROTTEN:
        return _rotten(point, scene)
    if smell is Smell.AMMONIA:
        return _ammonia(point, scene)
    if smell is Smell.SOUR:
        what = "Sour: acid food, or a bin that turns acid."
        do = ("Take out citrus, bread and other sour or starchy food; measure the pH.", PUT_RIGHT)
        return Verdict(Kind.SMELL, Level.ACT, "sour", what, point.at, do, (SOUR_WHY,))
    what = f"Noted in your own words: {words}."
    return Verdict(Kind.SMELL, Level.NOTED, "noted", what, point.at)


def _rotten(point: Point, scene: Scene) -> Verdict:
    until = when(scene.stack.as_of + HUNGRY, scene.stack.as_of)
    do = (
        f"Feed nothing for a week at least; look again {until}.",
        "Loosen it daily, and mix in dry bedding; the moisture reading tells how much.",
        "Leave out meat, dairy and oil.",
        PUT_RIGHT,
    )
    what = "Rotten: it lacks air, from too much food or too much water."
    return Verdict(Kind.SMELL, Level.ACT, "rotten", what, point.at, do, (FOUL_WHY,))


def _ammonia(point: Point, scene: Scene) -> Verdict:
    addition = _bedding_for_ammonia(scene)
    do = ["Feed nothing for now, and loosen it.", *_bedding_lines(addition, scene), PUT_RIGHT]
    what = "Ammonia: too much food that is rich in nitrogen."
    return Verdict(Kind.SMELL, Level.ACT, "ammonia", what, point.at, tuple(do), AMMONIA_WHY, addition)


def _bedding_for_ammonia(scene: Scene) -> Addition | None:
    contents = scene.contents
    if scene.tray is None or contents is None:
        return None
    stuff = dry_bedding(scene.stack, scene.tray, scene.pantry)
    return bedding_for_c_to_n(contents, BEST_C_TO_N, scene.stack.setup, stuff)


def _bedding_lines(addition: Addition | None, scene: Scene) -> list[str]:
    if addition is not None:
        units = scene.units
        add = f"Mix in {addition.words(units)}, for {addition.goal}: {addition.at_once(units)}."
        stock = stock_words(scene.stack, addition.stuff, scene.pantry)
        return [add, stock] if stock else [add]
    ratio = scene.contents.blend.c_to_n if scene.contents is not None else None
    if ratio is not None and ratio >= BEST_C_TO_N:
        return [f"Mix in dry bedding round the food; by what went in, the whole has a C:N of {ratio:.0f}."]
    return ["Mix in dry bedding; how much cannot be reckoned of what it holds."]


def judge_strays(point: Point, scene: Scene) -> Verdict:
    """What worms in the sump or under the lid tell."""
    if point.value == Amount.NONE:
        return Verdict(Kind.STRAYS, Level.FINE, "none", "Fine: none astray.", point.at)
    began = scene.stack.began_at
    new = began is not None and days_between(began, scene.stack.as_of) < NEW_DAYS
    why = (STRAY_WHY, "How many is many is your own eye.")
    if point.value == Amount.FEW:
        back = ("Put them back, and look again at the next check.",)
        told = "A few astray: usual in a new bin." if new else "A few astray."
        return Verdict(Kind.STRAYS, Level.WATCH, "few", told, point.at, back, why)
    do = (
        "Put them back; read moisture, temperature and pH today.",
        PUT_RIGHT,
    )
    what = "Many astray: something drives them out."
    return Verdict(Kind.STRAYS, Level.ACT, "many", what, point.at, do, why)


def judge_worms(point: Point, scene: Scene) -> Verdict:
    """What the worms seen at a glance tell: none where there were many is a bad sign."""
    if point.value != Amount.NONE:
        return Verdict(Kind.WORMS, Level.FINE, str(point.value), f"Fine: {point.value} seen.", point.at)
    if scene.tray is not None and scene.tray.stage is Stage.BEDDING:
        what = "None seen: bedding that waits may hold none."
        return Verdict(Kind.WORMS, Level.FINE, "none", what, point.at)
    many = [one for one in scene.points(Kind.WORMS) if one.value == Amount.MANY and one.at < point.at]
    low, high = (show_length(depth, scene.units) for depth in DEPTH_M)
    do = (f"Dig down {high} before you worry; then read moisture, temperature and pH.",)
    why = (f"Worms keep to the top {low} to {high} (Edwards 2011, Vermiculture Technology, ch. 1).",)
    if not many:
        return Verdict(Kind.WORMS, Level.WATCH, "none", "None seen.", point.at, do, why)
    what = f"None seen, and many were {when(many[-1].at, scene.stack.as_of)}."
    return Verdict(Kind.WORMS, Level.ACT, "none", what, point.at, (*do, PUT_RIGHT), why)
