"""`begin`: the plan for a new bin, the text twin of the starting screen."""

from __future__ import annotations

from argparse import Namespace

from trayturn.advice.bands import Band
from trayturn.advice.feeding import feed_next
from trayturn.advice.roles import free_tray
from trayturn.advice.starting import USUAL_BEDDING, StartingPlan, next_work, plan_for, starting_plan
from trayturn.advice.starting_steps import PlanStep, plan_steps
from trayturn.cli import amounts, as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_bin, readable, stack_asked
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.profile import FORMAT, read_setup
from trayturn.domain.setup import BinSetup, Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import parse_area, parse_length, round_mass, show_mass
from trayturn.science.errors import OutOfRange

LABELS = {"tray_area_m2": "--area", "tray_depth_m": "--depth", "species": "--species"}
MAKE = ("area", "depth", "species", "us")


def begin(options: Namespace, clock: Clock) -> int:
    """Print what a bin begins with: of the bin named, or of a tray that is only thought of."""
    stack = _stack(options, clock) if options.bin else None
    setup = stack.setup if stack is not None else _setup(options)
    worms = amounts.mass(options.worms, "--worms", setup.units)
    try:
        plan = starting_plan(stack, worms) if stack is not None else plan_for(setup, worms)
    except OutOfRange as slip:
        raise Refused(str(slip)) from None
    steps = plan_steps(plan, stack)
    if options.json:
        as_json.print_json(_data(plan, steps, stack))
    else:
        _print(plan, steps, stack, Page(options.ascii))
    return 0


def _stack(options: Namespace, clock: Clock) -> Stack:
    typed = [name for name in MAKE if getattr(options, name)]
    if typed:
        raise Refused(f"--{typed[0]} is for a bin not made yet; {options.bin} has its own.")
    return stack_asked(options, readable(open_bin(options)), clock())


def _setup(options: Namespace) -> BinSetup:
    """A bin of the tray typed. Raises `Refused` for a slip, and where there is no tray to reckon by."""
    if options.area is None:
        raise Refused("Name a bin, or the tray to begin with, such as: --area 0.16m2 --depth 15cm.")
    if options.at:
        raise Refused("--at is of a bin; without one there is nothing to look back on.")
    units = Units.US if options.us else Units.METRIC
    typed = {
        "name": "bin",
        "units": str(units),
        "tray_area_m2": amounts.read(parse_area, options.area, "--area", units),
        "tray_depth_m": amounts.read(parse_length, options.depth, "--depth", units),
        "species": options.species and options.species.lower().replace(" ", "_"),
    }
    given = {key: value for key, value in typed.items() if value is not None}
    setup, _, problems = read_setup({"format": FORMAT, "bin": given})
    if setup is None:
        key = problems[0].key.partition(".")[2]
        raise Refused(f"{LABELS.get(key, key)} {problems[0].message}.")
    return setup


def _data(plan: StartingPlan, steps: tuple[PlanStep, ...], stack: Stack | None) -> as_json.Data:
    return {
        "bin": stack.key if stack else None,
        "name": stack.setup.name if stack else None,
        "as_of": as_json.moment(stack.as_of) if stack else None,
        "tray_area_m2": plan.setup.tray_area_m2,
        "filled_m": as_json.amount(plan.filled_m),
        "bedding_kg": _band(plan.bedding_kg),
        "water_kg": _band(plan.water_kg),
        "worms_kg": as_json.amount(plan.worms_kg),
        "worms_best_kg": as_json.amount(plan.worms_best_kg),
        "worms_most_kg": as_json.amount(plan.worms_most_kg),
        "worms_number": plan.number and {"low": round(plan.number[0]), "high": round(plan.number[1])},
        "celsius": plan.celsius,
        "celsius_read": plan.celsius_read,
        "meals": [{"share": meal.share, "kg": _band(meal.kg)} for meal in plan.meals],
        "steps": [
            {
                "code": step.code,
                "title": step.title,
                "what": step.what,
                "why": list(step.why),
                "page": str(step.page),
                "done": step.done,
            }
            for step in steps
        ],
    }


def _band(band: Band) -> as_json.Data:
    low, mid, high = (as_json.amount(value) for value in band)
    return {"low": low, "about": mid, "high": high}


def _print(plan: StartingPlan, steps: tuple[PlanStep, ...], stack: Stack | None, page: Page) -> None:
    if stack is not None:
        page.line(f"Starting {stack.setup.name}")
    for number, step in enumerate(steps, 1):
        if number > 1 or stack is not None:
            page.line()
        page.line(f"{number}  {step.title}{' (done)' if step.done else ''}: {step.what}", 0, 3)
        page.lines(step.why, 5, 2)
    page.line()
    page.line("What to mind before: trayturn cautions --work starting")
    if stack is not None and (work := next_work(stack)) is not None:
        page.line("To write it down once it is done:")
        page.command(f"trayturn log {stack.key} {_log_words(work, plan, stack)}")


def _log_words(work: str, plan: StartingPlan, stack: Stack) -> str:
    """What writes the next piece of work down, with the planned amounts."""
    units = plan.setup.units
    if work == "worms":
        return f'worms-added "{show_mass(plan.worms_kg, units)}"'
    if work == "meal":
        return f'fed {feed_next(stack).tray or feed_next(stack).instead} "cabbage={_first(plan)}"'
    bedding = f'--bedding "{USUAL_BEDDING}={show_mass(plan.bedding_kg.mid, units)}"'
    water = f'--water "{show_mass(plan.water_kg.mid, units)}"'
    return f"started {free_tray(stack) or 'A'} {bedding} {water} --stage feeding"


def _first(plan: StartingPlan) -> str:
    """The first meal as it would be typed: the least of its band."""
    return show_mass(round_mass(plan.meals[0].kg.low, plan.setup.units), plan.setup.units)
