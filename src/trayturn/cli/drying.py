"""`moisture`: how moist a sample was, from its weight wet and dried."""

from __future__ import annotations

from argparse import Namespace

from trayturn.advice.checking.moisture import PERCENT_MEANS, percent_by_drying
from trayturn.cli import amounts, as_json
from trayturn.cli.layout import Page
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.setup import Units
from trayturn.domain.units import three_figures


def moisture(options: Namespace, clock: Clock) -> int:
    """Print the moisture of a sample that was weighed in its container, wet and dried."""
    weights = [
        amounts.mass(text, label, Units.METRIC) or 0.0
        for text, label in (
            (options.container, "the container"),
            (options.wet, "with it wet"),
            (options.dry, "with it dry"),
        )
    ]
    try:
        percent = percent_by_drying(*weights)
    except ValueError as slip:
        raise Refused(str(slip)) from None
    if options.json:
        as_json.print_json({"moisture_pct": round(percent, 4), "why": PERCENT_MEANS})
    else:
        page = Page(options.ascii)
        page.line(f"Moisture {three_figures(percent)} %.")
        page.line(PERCENT_MEANS)
    return 0
