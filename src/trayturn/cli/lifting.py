"""`lift`: what a tray may weigh to be lifted from here to there."""

from __future__ import annotations

import math
from argparse import Namespace
from dataclasses import asdict

from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.units import three_figures
from trayturn.science import lifting
from trayturn.science.errors import OutOfRange
from trayturn.science.lifting_tables import Grip

SHOWN = ("hm", "vm", "dm", "am", "fm", "cm")


def lift(options: Namespace, clock: Clock) -> int:
    """Print the recommended weight limit and the lifting index at both ends of a lift."""
    if options.grip not in list(Grip):
        raise Refused(f"--grip needs one of {', '.join(Grip)}.")
    form = lifting.US if options.us else lifting.METRIC
    try:
        ends = lifting.lift(
            options.kg,
            options.reach,
            options.start,
            options.end,
            twist_deg=options.twist,
            per_minute=options.per_minute,
            duration=lifting.duration_for(options.hours),
            grip=Grip(options.grip),
            form=form,
        )
    except OutOfRange as slip:
        raise Refused(str(slip)) from None
    if options.json:
        origin, destination = (_data(end) for end in ends)
        said = lifting.advice(*ends)
        as_json.print_json({"origin": origin, "destination": destination, "advice": said})
    else:
        _print(ends, "lb" if options.us else "kg", Page(options.ascii))
    return 0


def _data(end: lifting.Lift) -> dict[str, float | None]:
    return {key: value if math.isfinite(value) else None for key, value in asdict(end).items()}


def _print(ends: tuple[lifting.Lift, lifting.Lift], unit: str, page: Page) -> None:
    for name, end in zip(("Where it is picked up", "Where it is set down"), ends, strict=True):
        index = f"{end.li:.1f}" if math.isfinite(end.li) else "beyond any"
        page.line(f"{name}: up to about {three_figures(end.rwl)} {unit} is advised; the index is {index}.")
        page.line("  ".join(f"{key.upper()} {getattr(end, key):.2f}" for key in SHOWN), 2)
    page.lines(lifting.advice(*ends))
    page.line("Revised NIOSH lifting equation, publication 94-110. An index above 1 raises the risk.")
