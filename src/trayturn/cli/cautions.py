"""`cautions`: what to mind before the work, the text twin of the checklist."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import asdict

from trayturn.advice.cautions import CAUTIONS, WORKS, Caution, cautions_for
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.profile import nearest
from trayturn.domain.words import listed


def cautions(options: Namespace, clock: Clock) -> int:
    """Print the cautions, with their reasons and sources."""
    chosen = _chosen(options.work)
    if options.json:
        as_json.print_json({"work": options.work, "cautions": [asdict(caution) for caution in chosen]})
        return 0
    page = Page(options.ascii)
    for number, caution in enumerate(chosen):
        if number:
            page.line()
        page.line(caution.title)
        page.line(caution.to_do, 2)
        page.line(caution.why, 2)
        page.line(f"Source: {caution.source}", 2, 2)
    return 0


def _chosen(work: str | None) -> tuple[Caution, ...]:
    if work is None:
        return tuple(CAUTIONS)
    name = work.lower().replace("-", "_")
    if name not in WORKS:
        hint = nearest(name, WORKS) or f"; use one of {listed(WORKS)}."
        raise Refused(f"--work {work[:40]!r} has no cautions of its own{hint}")
    return cautions_for(name)
