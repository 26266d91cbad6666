"""Temperature, pH and the sump judged against what is published of each."""

from __future__ import annotations

from trayturn.advice.checking.history import Point
from trayturn.advice.checking.kinds import Kind, said
from trayturn.advice.checking.ranges import HALF_FULL, Range, Standing, range_of, stands
from trayturn.advice.checking.scene import Scene
from trayturn.advice.checking.trend import Trend, trend
from trayturn.advice.checking.verdict import LEVELS, Verdict
from trayturn.domain.setup import Units
from trayturn.domain.units import show_temperature, show_volume, three_figures
from trayturn.domain.words import count
from trayturn.science.temperature import correction_band

USUAL_C = 20.0
"""What eating is compared with."""
KILLS_C = (90 - 32) / 1.8
"""90 °F (Oregon Metro)."""
WARMTH = {
    Standing.BELOW: "too cold",
    Standing.LOW: "cool",
    Standing.FINE: "fine",
    Standing.HIGH: "warm",
    Standing.ABOVE: "too hot",
}
ACID = {
    Standing.BELOW: "too acid",
    Standing.LOW: "on the acid side",
    Standing.FINE: "fine",
    Standing.HIGH: "on the alkaline side",
    Standing.ABOVE: "too alkaline",
}
FILLED = {Standing.FINE: "nearly dry", Standing.HIGH: "filling", Standing.ABOVE: "to be emptied"}
LIME = (
    "Powdered calcium carbonate raises it; never slaked or hydrated lime (RecycleWorks San Mateo).",
    "How much is not published: strew a little, without dust, and measure again in some days.",
)
SOON_DAYS = 60
"""Further ahead than this the pace of some readings tells nothing. Our choice."""
OUR_SUGGESTION = "What to do on the alkaline side is our suggestion, no source."


def judge_temperature(point: Point, scene: Scene) -> Verdict:
    """How warm the bin is for its worms."""
    known, standing = _against(point, scene)
    word = WARMTH[standing]
    what = f"{word.capitalize()}: {said(Kind.TEMPERATURE, point.value, scene.units)}"
    what += _beyond(standing, known, scene.units)
    why = (*known.lines, *_warmth_why(standing, scene.units))
    return _verdict(point, scene, standing, word, f"{what}.", _for_warmth(point, known, standing, scene), why)


def _beyond(standing: Standing, known: Range, units: Units) -> str:
    least, most = (show_temperature(limit, units) for limit in known.limits)
    if standing is Standing.BELOW:
        return f"; below the limit of {least}"
    return f"; above the limit of {most}" if standing is Standing.ABOVE else ""


def _for_warmth(point: Point, known: Range, standing: Standing, scene: Scene) -> list[str]:
    units, celsius = scene.units, point.number
    if standing is Standing.BELOW:
        to = show_temperature(known.limits[0], units)
        by = _degrees(known.limits[0] - celsius, units)
        return [f"Move it somewhere warmer: {by} more at least, to {to}.", "Feed nothing until then."]
    if standing is Standing.LOW:
        return [_eat(celsius, units)]
    if standing is Standing.HIGH:
        return ["Keep it out of the sun; feed thin layers, since food heats."]
    if standing is Standing.ABOVE:
        by = _degrees(celsius - known.limits[1], units)
        return [
            f"Cool it by {by} at least: shade, a damp cover, the food in a thin layer.",
            "Feed nothing until then: food heats.",
        ]
    return []


def _degrees(celsius: float, units: Units) -> str:
    """A difference of temperature, rounded up: a step that is too short does not reach."""
    number = celsius * (1.8 if units is Units.US else 1.0)
    return f"{max(1, -int(-number // 1))} °{'F' if units is Units.US else 'C'}"


def _eat(celsius: float, units: Units) -> str:
    low, high = (round(100 * share) for share in correction_band(celsius, USUAL_C))
    usual = show_temperature(USUAL_C, units)
    return f"They eat about {low} to {high} % of what they do at {usual}: feed that much less."


def _warmth_why(standing: Standing, units: Units) -> tuple[str, ...]:
    if standing is Standing.LOW:
        return ("Eating by two published corrections that disagree (Johnston et al. 2014; DEB data file).",)
    if standing is Standing.ABOVE:
        dies = show_temperature(KILLS_C, units)
        return (f"Above {dies} worms die (Oregon Metro); shade and thin layers, extension advice.",)
    return ()


def judge_ph(point: Point, scene: Scene) -> Verdict:
    """How acid or alkaline the tray is."""
    known, standing = _against(point, scene)
    word = ACID[standing]
    limit = {Standing.BELOW: "; worms need more than 5", Standing.ABOVE: "; worms need less than 9"}
    what = f"{word.capitalize()}: pH {three_figures(point.number)}{limit.get(standing, '')}."
    why = (*known.lines, OUR_SUGGESTION) if standing > Standing.FINE else known.lines
    return _verdict(point, scene, standing, word, what, _for_acid(standing), why)


def _for_acid(standing: Standing) -> list[str]:
    if standing < Standing.FINE:
        first = ["Take out citrus, bread and other sour or starchy food."]
        return [*first, *LIME] if standing is Standing.BELOW else [*first, LIME[0]]
    if standing is Standing.HIGH:
        return ["Give no lime or shell grit for now; smell whether there is ammonia."]
    if standing is Standing.ABOVE:
        return [
            "Give no lime or shell grit. With a smell of ammonia: dry bedding, and no food.",
            "No published way to lower it was found; move the worms to fresh bedding if it stays.",
        ]
    return []


def judge_sump(point: Point, scene: Scene) -> Verdict:
    """How full the sump is, and when it will be to be emptied."""
    known, standing = _against(point, scene)
    full = point.number / scene.stack.setup.sump_capacity_l
    word = FILLED[standing]
    holds = said(Kind.SUMP, point.value, scene.units)
    share = f", {100 * full:.0f} % of its capacity" if point.number else ""
    what = f"{word.capitalize()}: {holds}{share}."
    return _verdict(point, scene, standing, word, what, _for_sump(point, standing, scene), known.lines)


def _for_sump(point: Point, standing: Standing, scene: Scene) -> list[str]:
    if standing is Standing.FINE:
        return []
    if standing is Standing.ABOVE:
        out = show_volume(point.number, scene.units)
        return [f"Empty it now: {out}.", "See whether the trays above are too wet."]
    half = HALF_FULL * scene.stack.setup.sump_capacity_l
    filling = trend(scene.points(Kind.SUMP))
    at = f"Empty it at {show_volume(half, scene.units)} (half full) at the latest"
    return [f"{at}{_in_days(filling, half - point.number)}."]


def _in_days(filling: Trend | None, room_l: float) -> str:
    """When that will be, where the readings tell how fast it fills."""
    if filling is None or filling.direction <= 0:
        return ""
    days = max(1, round(room_l / (filling.change / filling.days)))
    return f": at this pace in about {count(days, 'day')}" if days <= SOON_DAYS else ""


def _against(point: Point, scene: Scene) -> tuple[Range, Standing]:
    known = range_of(point.kind, scene.stack.setup)
    assert known is not None
    return known, stands(point.number, known)


def _verdict(
    point: Point,
    scene: Scene,
    standing: Standing,
    word: str,
    what: str,
    do: list[str],
    why: tuple[str, ...],
) -> Verdict:
    moving = trend(scene.points(point.kind))
    return Verdict(
        point.kind,
        LEVELS[standing],
        word,
        what,
        point.at,
        tuple(do),
        why,
        trend=moving,
        standing=standing,
    )
