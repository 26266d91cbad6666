"""Castings used: for how much mix at what share, what that takes, and out of which jar."""

from __future__ import annotations

from typing import Any

from trayturn.advice.bands import mass_band, rough_mass, rough_volume
from trayturn.advice.castings.use import MOST_PCT, castings_for, density_words, judge
from trayturn.domain.setup import Units
from trayturn.domain.units import QUART_L
from trayturn.tui.screens.castings.amount_rows import Litres
from trayturn.tui.screens.castings.taking import TakingSheet
from trayturn.tui.widgets.answers import Answer, Count, Cycle, Words

USUAL_SHARE = 15
DESPITE = Cycle("despite", "All the same", "", ("no", "yes"), 0)
TOP_DRESSING = "Without a mix, as top dressing: no rate for that was found."


class UseSheet(TakingSheet):
    """The mix reckons the castings; what was really weighed is stepped or typed."""

    ACT, FIRST = "use", "mix"

    def questions(self) -> list[Answer]:
        us = self.units is Units.US
        litres = 10 * QUART_L if us else 10.0
        return [
            *self.out_of(),
            Litres("mix", "Mix to make", "", litres, us, "no mix"),
            Count("share", "Share of mix", number=USUAL_SHARE, step=5, after=" %", most=100),
            self.at_most("kg", "Castings", castings_for(litres, USUAL_SHARE)[1].mid, self.held(0)),
            Words("where", "For what"),
        ]

    def answered(self, key: str) -> None:
        """Another mix takes other castings; more than half of it is asked about."""
        if key in ("mix", "share", "label") and self.litres:
            kg = castings_for(self.litres, self.number("share") or 0)[1].mid
            self.rows.put(self.at_most("kg", "Castings", kg, self.held(self.place("label"))))
        if (self.rows.answer(DESPITE.key) is not None) != self.too_much:
            rows = [row for row in self.rows.answers if row.key != DESPITE.key]
            self.rows.rearrange([*rows, DESPITE] if self.too_much else rows)

    @property
    def litres(self) -> float:
        row = self.rows.answer("mix")
        return row.litres if isinstance(row, Litres) else 0.0

    @property
    def too_much(self) -> bool:
        return bool(self.litres) and (self.number("share") or 0) > MOST_PCT

    def values(self) -> dict[str, Any]:
        return {
            "label": self.label,
            "kg": self.kg("kg"),
            "where": self.text("where"),
            "share": self.number("share") if self.litres else None,
            "despite": "yes" if self.place(DESPITE.key) else "",
        }

    def words(self) -> list[str]:
        """What the mix takes, by what density, and what is said of such a share."""
        if not self.litres:
            return [TOP_DRESSING, *self.short()]
        share = self.number("share") or 0
        volume, kg = castings_for(self.litres, share)
        mix, takes = rough_volume(self.litres, self.units), rough_volume(volume, self.units)
        band = mass_band(kg, self.units)
        return [
            f"{mix} of mix at {share} % takes {takes} of castings: {band}.",
            density_words(self.units),
            judge(share).words,
            *self.short(),
        ]

    def short(self) -> list[str]:
        """The same, and where there is less than the mix would take."""
        held, told = self.held(self.place("label")), super().short()
        if held is None or told or not self.litres:
            return told
        wanted = castings_for(self.litres, self.number("share") or 0)[1].low
        left = rough_mass(held, self.units)
        return [f"Only {left} is there: enough for less of that mix."] if wanted > held else []
