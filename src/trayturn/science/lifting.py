"""What a tray may weigh to be lifted: the revised NIOSH lifting equation, whole, in its metric and US forms.

Source: Waters, Putz-Anderson & Garg, Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH)
94-110, 1994, revised 2021 (formulas pp. 1-18, read in a transcription). The two forms are not exact
conversions of each other (23 kg is 50.7 lb, and the US form starts from 51 lb), so each is computed in its
own
units.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trayturn.science.errors import OutOfRange, within
from trayturn.science.lifting_tables import COUPLING, FREQUENCY, RATES, Duration, Grip

NOT_FOR = (
    "It does not hold for one hand, sitting, kneeling, a cramped place, an unstable load, carrying more than "
    "two steps, a wet or slippery floor, or more than 8 hours; nor for children, in pregnancy or with an "
    "injury."
)
"""Where the equation is not to be used (manual, p. 6); the last clause is a usual caution."""


@dataclass(frozen=True, slots=True)
class Form:
    """The constants of one form: lengths in its own unit, the load constant in its own unit of mass."""

    load: float
    near: float
    far: float
    body: float
    body_low: float
    knuckle: float
    height_slope: float
    top: float
    travel_term: float
    least_travel: float


METRIC = Form(23.0, 25.0, 63.0, 20.0, 25.0, 75.0, 0.003, 175.0, 4.5, 25.0)
"""Kilograms and centimetres."""
US = Form(51.0, 10.0, 25.0, 8.0, 10.0, 30.0, 0.0075, 70.0, 1.8, 10.0)
"""Pounds and inches."""


@dataclass(frozen=True, slots=True)
class Lift:
    """One end of a lift: its six multipliers, the recommended weight limit and the lifting index."""

    hm: float
    vm: float
    dm: float
    am: float
    fm: float
    cm: float
    rwl: float
    li: float


def horizontal(reach: float, form: Form = METRIC) -> float:
    """HM from the hands' distance to the ankles: 1 up close, 0 beyond 63 cm (25 in)."""
    within(reach, "The reach", 0, 1000)
    return 0.0 if reach > form.far else form.near / max(reach, form.near)


def reach_over(width: float, height: float, form: Form = METRIC) -> float:
    """The reach that a load of that width, front to back, asks for where the hands are so high.

    The body keeps 20 cm (8 in) away, and 25 cm (10 in) where the hands are lower than `near` (p. 8).
    """
    within(width, "The width of the load", 0, 1000)
    return (form.body_low if height < form.near else form.body) + width / 2


def vertical(height: float, form: Form = METRIC) -> float:
    """VM from the height of the hands: 1 at 75 cm (30 in), 0 above 175 cm (70 in)."""
    within(height, "The height of the hands", 0, 1000)
    return 0.0 if height > form.top else 1 - form.height_slope * abs(height - form.knuckle)


def distance(travel: float, form: Form = METRIC) -> float:
    """DM from how far the hands travel up or down: 1 up to 25 cm (10 in), 0 beyond 175 cm (70 in)."""
    within(travel, "The vertical travel", 0, 1000)
    return 0.0 if travel > form.top else 0.82 + form.travel_term / max(travel, form.least_travel)


def asymmetry(twist_deg: float) -> float:
    """AM from the angle of the load to the body's middle, in degrees: 0 above 135."""
    within(twist_deg, "The twist", 0, 180, "degrees")
    return 0.0 if twist_deg > 135 else 1 - 0.0032 * twist_deg


def frequency(per_minute: float, duration: Duration, origin_height: float, form: Form = METRIC) -> float:
    """FM from lifts a minute, read between the rows of table 5; 0 above its last row.

    The height is that of the hands at the origin, also when the destination is scored.
    """
    within(per_minute, "Lifts a minute", 0, 1000)
    row = FREQUENCY[duration, origin_height >= form.knuckle]
    rate = max(per_minute, RATES[0])
    if rate > RATES[-1]:
        return 0.0
    upper = next(n for n, known in enumerate(RATES) if known >= rate)
    if upper == 0:
        return row[0]
    share = (rate - RATES[upper - 1]) / (RATES[upper] - RATES[upper - 1])
    return row[upper - 1] + share * (row[upper] - row[upper - 1])


def coupling(grip: Grip, height: float, form: Form = METRIC) -> float:
    """CM from the grip and the height of the hands at the end that is scored."""
    low, high = COUPLING[grip]
    return high if height >= form.knuckle else low


def duration_of(work_min: Sequence[float], recovery_min: Sequence[float]) -> Duration:
    """The duration class of spells of lifting with the lighter work or rest after each, in minutes (pp.
    13-15).

    Short: at most an hour, then recovery at least as long. Moderate: at most two, then at least 0.3 as long.
    Where the recovery is too short, the spells on either side of it add up. Raises `OutOfRange` above 8
    hours.
    """
    for minutes in (*work_min, *recovery_min):
        within(minutes, "A spell", 0, 24 * 60, "minutes")
    if max(_joined(work_min, recovery_min, 1.0)) <= 60:
        return Duration.SHORT
    if max(_joined(work_min, recovery_min, 0.3)) <= 120:
        return Duration.MODERATE
    if sum(work_min) > 8 * 60:
        raise OutOfRange("The lifting equation holds for at most 8 hours.")
    return Duration.LONG


def _joined(work_min: Sequence[float], recovery_min: Sequence[float], needed: float) -> list[float]:
    """The spells, those added up between which the recovery is less than `needed` times the work
    before it."""
    spells = [0.0, *work_min[:1]]
    for work, rest in zip(work_min[1:], recovery_min, strict=False):
        if rest >= needed * spells[-1]:
            spells.append(work)
        else:
            spells[-1] += work
    return spells


def duration_for(hours: float) -> Duration:
    """The duration class of one spell, in hours. Raises `OutOfRange` outside 0 to 8."""
    within(hours, "The time of lifting", 0, 8, "hours")
    return duration_of([hours * 60], [])


def lift(
    load: float,
    reach: float,
    start: float,
    end: float,
    *,
    end_reach: float | None = None,
    twist_deg: float = 0.0,
    per_minute: float = 0.2,
    duration: Duration = Duration.SHORT,
    grip: Grip = Grip.POOR,
    form: Form = METRIC,
) -> tuple[Lift, Lift]:
    """The lift scored at its origin and at its destination, in the units of `form`.

    The grip is poor unless said otherwise: gloves alone make it so. Raises `OutOfRange`.
    """
    within(load, "The load", 0, 1000)
    fm = frequency(per_minute, duration, start, form)
    dm, am = distance(abs(end - start), form), asymmetry(twist_deg)

    def scored(reach_there: float, height: float) -> Lift:
        hm, vm, cm = horizontal(reach_there, form), vertical(height, form), coupling(grip, height, form)
        rwl = form.load * hm * vm * dm * am * fm * cm
        li = 0.0 if load == 0 else load / rwl if rwl > 0 else float("inf")
        return Lift(hm, vm, dm, am, fm, cm, rwl, li)

    return scored(reach, start), scored(reach if end_reach is None else end_reach, end)


def advice(origin: Lift, destination: Lift) -> list[str]:
    """What to do about a lift, in plain words.

    An index above 1 raises the risk for part of those who lift.
    """
    worst = max(origin.li, destination.li)
    if worst <= 1:
        words = ["Within the recommended limit for most people in good health."]
    elif worst <= 3:
        words = ["Above the recommended limit: take some out first, or lift it with a second person."]
    else:
        words = ["Far above the recommended limit: do not lift it like this. Split the load or ask for help."]
    low = min((origin, destination), key=lambda one: one.rwl)
    if worst > 1 and low.hm < 0.9:
        words.append("Hold it closer to the body.")
    if worst > 1 and low.vm < 0.9:
        words.append("Bring it nearer to waist height: a stool, a table or a lower stack.")
    if worst > 1 and low.am < 1:
        words.append("Turn your feet instead of twisting.")
    return [*words, NOT_FOR, "Back trouble, or in doubt: ask a doctor or physiotherapist first."]
