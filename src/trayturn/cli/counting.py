"""`count`: how many worms there are, from repeated picking or from weighed samples."""

from __future__ import annotations

from argparse import Namespace

from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.units import three_figures
from trayturn.science import removal, sampling
from trayturn.science.errors import OutOfRange

METHODS = {
    "two-pass": removal.two_pass,
    "ml": removal.maximum_likelihood,
    "carle-strub": removal.carle_strub,
}


def count(options: Namespace, clock: Clock) -> int:
    """Print the number of worms with its band."""
    if (options.picks is None) == (options.samples is None):
        raise Refused("Give either --picks, such as 79,28, or --samples with --sample-g and --total-kg.")
    try:
        if options.picks is not None:
            return _picked(options)
        return _sampled(options)
    except (OutOfRange, removal.NoEstimate) as trouble:
        raise Refused(str(trouble)) from None


def _whole_numbers(text: str, option: str) -> list[int]:
    parts = [part.strip() for part in text.split(",")]
    if not all(part.isascii() and part.isdigit() and len(part) < 10 for part in parts):
        raise Refused(f"{option} needs whole numbers with commas between, such as 79,28.")
    return [int(part) for part in parts]


def _picked(options: Namespace) -> int:
    picks = _whole_numbers(options.picks, "--picks")
    method = options.method or ("two-pass" if len(picks) == 2 else "ml")
    if method not in METHODS:
        raise Refused(f"--method needs one of {', '.join(METHODS)}.")
    found = METHODS[method](picks)
    if options.json:
        fields = ("n", "se", "low", "high", "p", "method")
        as_json.print_json({f: getattr(found, f) for f in fields} | {"warnings": list(found.warnings)})
        return 0
    page = Page(options.ascii)
    page.line(_about(found.n, found.low, found.high))
    page.line(f"Each pick finds about {found.p:.0%} of the worms that are left (method: {method}).", 2)
    page.lines((f"Mind: {warning}" for warning in found.warnings), 2)
    return 0


def _sampled(options: Namespace) -> int:
    if options.sample_g is None or options.total_kg is None:
        raise Refused("--samples needs --sample-g, the mass of one sample, and --total-kg, the whole mass.")
    counts = _whole_numbers(options.samples, "--samples")
    found = sampling.from_samples(counts, options.sample_g / 1000, options.total_kg)
    if options.json:
        fields = ("n", "se", "low", "high", "k", "relative_half_width", "more_samples_to_halve")
        told = {f: getattr(found, f) for f in fields}
        as_json.print_json(told | {"p": None, "method": "samples", "warnings": list(found.warnings)})
        return 0
    page = Page(options.ascii)
    page.line(_about(found.n, found.low, found.high))
    page.line(f"That is within about {found.relative_half_width:.0%} either way.", 2)
    page.line(f"About {found.more_samples_to_halve} more samples of that size would halve the band.", 2)
    page.lines((f"Mind: {warning}" for warning in found.warnings), 2)
    return 0


def _about(n: float, low: float, high: float) -> str:
    shown = [three_figures(round(number, 1)) for number in (n, low, high)]
    return f"About {shown[0]} worms; 19 times in 20 between {shown[1]} and {shown[2]}."
