"""Rows for amounts in steps: a volume, and a mass that is still to be weighed."""

from __future__ import annotations

from dataclasses import dataclass, replace

from trayturn.domain.setup import Units
from trayturn.domain.units import QUART_L, show_volume
from trayturn.tui.widgets.answers import Answer, Mass
from trayturn.tui.widgets.line_list import Span

MOST_L = 10_000.0


@dataclass(frozen=True, slots=True)
class Litres(Answer):
    """A volume in litres; 0 is none, said as `none`. Steps are of a litre or a quart."""

    litres: float = 0.0
    us: bool = False
    none: str = "none"

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        shown = show_volume(self.litres, Units.US if self.us else Units.METRIC) if self.litres else self.none
        return ((f"{self.label:<{width}}", "muted"), (f"-  {shown}  +", "strong"))

    def stepped(self, by: int) -> Answer:
        unit = QUART_L if self.us else 1.0
        return replace(self, litres=min(max(0, round(self.litres / unit) + by) * unit, MOST_L))


@dataclass(frozen=True, slots=True)
class Weighed(Mass):
    """A mass not weighed yet: the first step more goes to what is `likely`; until then it is none."""

    likely: float | None = None

    def stepped(self, by: int) -> Answer:
        if self.kg is None and self.likely and by > 0:
            return replace(self, kg=self.likely)
        return Mass.stepped(self, by)
