"""The sheets of the castings screen: looking, weighing, sieving, filling jars."""

from __future__ import annotations

from typing import Any

from trayturn.advice.bands import rough_mass
from trayturn.advice.castings.cocoons import expected
from trayturn.advice.castings.drying import (
    SIEVES_BELOW_PCT,
    TRIED_MESH_MM,
    USUAL_MESH_MM,
    mesh_words,
    share_passed,
    sieves_at_kg,
)
from trayturn.advice.castings.stages import KEEPS_FOR, filled_use_by, use_by
from trayturn.domain.entries import Stage
from trayturn.domain.lots import LEAST_KG, next_label
from trayturn.domain.setup import Units
from trayturn.domain.units import two_figures
from trayturn.tui.screens.castings.sheet import LotSheet
from trayturn.tui.screens.castings.taking import GiveSheet
from trayturn.tui.screens.castings.use_sheet import UseSheet
from trayturn.tui.widgets.answers import Answer, Count, Cycle, Words

MESHES_MM = (USUAL_MESH_MM, TRIED_MESH_MM, 3.2)
MESHES_US = ("1/4 in", "0.16 in", "1/8 in")


class LookSheet(LotSheet):
    """Hatchlings lifted out with the bait, the tray they went to, and new bait."""

    ACT, FIRST = "look", "counted"

    @property
    def trays(self) -> tuple[str, ...]:
        """Where hatchlings can go, trays that are fed first; last to none."""
        trays = sorted(self.stack.trays, key=lambda tray: (tray.stage is not Stage.FEEDING, tray.id))
        return (*(tray.id for tray in trays), "")

    def questions(self) -> list[Answer]:
        return [
            Count("counted", "Hatchlings", step=10),
            self.mass("worms_kg", "They weigh", None),
            Cycle("tray", "Went to tray", "", tuple(tray or "none of them" for tray in self.trays), 0),
            Cycle("again", "New bait laid", "", ("yes", "no"), 0),
        ]

    def values(self) -> dict[str, Any]:
        return {
            "counted": self.number("counted"),
            "worms_kg": self.kg("worms_kg"),
            "tray": self.trays[self.place("tray")],
            "again": "" if self.place("again") else "yes",
        }

    def words(self) -> list[str]:
        found = expected(self.lot, self.stack)
        said = []
        if found is not None and found.young is not None:
            low, high = two_figures(found.young.low), two_figures(found.young.high)
            said.append(f"{low:,.0f} to {high:,.0f} young are to be expected in all.")
        return [*said, "Counting roughly will do; 0 says that none came to the bait."]


class WeighSheet(LotSheet):
    """What a drying lot weighs, or how moist it is."""

    ACT, FIRST = "dry", "kg"

    def questions(self) -> list[Answer]:
        moisture = Count("moisture", "Moisture", "", None, 5, " %", "not read", 100)
        return [self.weighed("kg", "It weighs", self.lot.kg), moisture]

    def values(self) -> dict[str, Any]:
        return {"kg": self.kg("kg"), "moisture": self.number("moisture")}

    def missing(self) -> str:
        read = self.kg("kg") is not None or self.number("moisture") is not None
        return "" if read else "Say what it weighs, or its moisture."

    def words(self) -> list[str]:
        target = sieves_at_kg(self.lot)
        at = (
            f" By its last reading it then weighs {rough_mass(target, self.units)}."
            if target is not None
            else ""
        )
        return [f"It is dry enough to sieve at {SIEVES_BELOW_PCT:.0f} %.{at}"]


class SieveSheet(LotSheet):
    """The mesh, what fell through and what stayed on it."""

    ACT, FIRST = "sieve", "passed"

    def questions(self) -> list[Answer]:
        us = self.units is Units.US
        meshes = MESHES_US if us else tuple(f"{mm:g} mm" for mm in MESHES_MM)
        return [
            Cycle("mesh", "Mesh", "", meshes, 0),
            self.weighed("passed", "Fell through", self.lot.kg and 0.8 * self.lot.kg),
            self.weighed("oversize", "Stayed on it", self.lot.kg and 0.2 * self.lot.kg),
            Words("to", "Which went to"),
        ]

    def values(self) -> dict[str, Any]:
        parts = {"passed": self.kg("passed"), "oversize": self.kg("oversize")}
        return {"mesh": MESHES_MM[self.place("mesh")], **parts, "to": self.text("to")}

    def words(self) -> list[str]:
        passed, stayed = self.kg("passed"), self.kg("oversize")
        share = share_passed(passed, stayed)
        through = [f"{100 * share:.0f} % passes."] if share is not None else []
        if passed is None and stayed is not None and self.lot.kg is not None and stayed <= self.lot.kg:
            rest = rough_mass(self.lot.kg - stayed, self.units)
            through = [f"Without that, {rest} of it is left."]
        cures = "What falls through is the lot from then on, and goes on to cure."
        return [*through, cures, mesh_words(self.units)]


class PackSheet(LotSheet):
    """Jars or bags filled: how many, of how much each, by what name."""

    ACT, FIRST = "pack", "count"

    def questions(self) -> list[Answer]:
        left = self.lot.kg
        return [
            Count("count", "Jars or bags", number=1),
            self.at_most("kg", "Each holds", 0.5, left),
            Words("label", "Label", "", next_label(self.stack)),
        ]

    def values(self) -> dict[str, Any]:
        return {"count": self.number("count"), "kg": self.kg("kg"), "label": self.text("label")}

    def missing(self) -> str:
        if not self.number("count") or not self.kg("kg"):
            return "Say how many jars or bags there are, and what each holds."
        return "" if self.text("label") else "Give it a label, to find it by."

    def words(self) -> list[str]:
        """What all of them hold, what then stays loose, and by when they are best used."""
        kg, left = (self.kg("kg") or 0.0) * (self.number("count") or 0), self.lot.kg
        together = f"Together {rough_mass(kg, self.units)}"
        day, ready = filled_use_by(self.lot, self.house.now), use_by(self.lot) is not None
        since = "from being ready" if ready else "from filling, as it is not ready"
        by = f"Best used by {day:%Y-%m-%d}, {KEEPS_FOR.days} days {since}; keep them damp, with air."
        if left is None:
            return [f"{together}.", by]
        if kg > left + LEAST_KG:
            return [
                f"{together}, which is more than the {rough_mass(left, self.units)} of it by weight.",
                by,
            ]
        rest = rough_mass(left - kg, self.units) if left - kg > LEAST_KG else "nothing"
        return [f"{together}; {rest} of it stays loose.", by]


SHEETS: dict[str, type[LotSheet]] = {
    "look": LookSheet,
    "weigh": WeighSheet,
    "sieve": SieveSheet,
    "pack": PackSheet,
    "use": UseSheet,
    "give": GiveSheet,
}
"""By what is done with a lot."""
