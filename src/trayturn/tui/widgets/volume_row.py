"""A volume in steps, as one row of answers."""

from __future__ import annotations

from dataclasses import dataclass, replace

from trayturn.domain.setup import Units
from trayturn.domain.units import QUART_L, show_volume
from trayturn.tui.widgets.answers import Answer
from trayturn.tui.widgets.line_list import Span

MOST_L = 200.0


@dataclass(frozen=True, slots=True)
class Volume(Answer):
    """Litres, or None while nobody looked; `us` steps and shows them in quarts. The first step is none."""

    litres: float | None = None
    us: bool = False

    @property
    def step_l(self) -> float:
        return QUART_L / 4 if self.us else 0.1

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        units = Units.US if self.us else Units.METRIC
        shown = "not looked" if self.litres is None else show_volume(self.litres, units)
        return ((f"{self.label:<{width}}", "muted"), (f"-  {shown}  +", "strong"))

    def stepped(self, by: int) -> Answer:
        if self.litres is None:
            return replace(self, litres=0.0 if by > 0 else None)
        litres = self.litres + by * self.step_l
        return replace(self, litres=round(min(litres, MOST_L), 6) if litres > -self.step_l / 2 else None)
