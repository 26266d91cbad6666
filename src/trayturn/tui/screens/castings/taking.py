"""Castings taken out of a lot: out of which jar, and no more than it holds; given away or sold."""

from __future__ import annotations

from typing import Any

from trayturn.advice.bands import rough_mass
from trayturn.advice.castings.stages import jar_use_by
from trayturn.domain.lots import LEAST_KG
from trayturn.domain.words import clean
from trayturn.tui.screens.castings.sheet import LotSheet
from trayturn.tui.widgets.answers import Answer, Cycle, Words

USUAL_KG = 0.5
"""What is offered first to be given away. Our choice."""


class TakingSheet(LotSheet):
    """What sheets share that take castings out of a jar, or of what is loose."""

    @property
    def labels(self) -> tuple[str, ...]:
        """Jars that hold something, to be used first on top; an empty label is what is loose."""
        full = [jar for jar in self.lot.jars.values() if jar.left_kg > 0]
        loose = self.lot.kg is None or self.lot.kg > 0
        return (*(jar.label for jar in sorted(full, key=jar_use_by)), *([""] if loose else []))

    @property
    def label(self) -> str:
        """The jar that is chosen; empty for what is loose."""
        return self.labels[self.place("label")] if self.labels else ""

    def out_of(self) -> list[Answer]:
        """The row that asks out of which jar, where there is a choice."""
        shown = tuple(clean(label, 30) or "loose" for label in self.labels)
        return [Cycle("label", "Out of", "", shown, 0)] if len(shown) > 1 or self.lot.jars else []

    def held(self, place: int) -> float | None:
        """What is left in the jar of that place among the labels, or loose, kg; None where not weighed."""
        label = self.labels[place] if self.labels else ""
        return self.lot.jars[label].left_kg if label else self.lot.kg

    def short(self) -> list[str]:
        """What to say where more is written down than there is."""
        held, kg = self.held(self.place("label")), self.kg("kg") or 0.0
        if held is None or kg <= held + LEAST_KG:
            return []
        return [f"That is more than the {rough_mass(held, self.units)} there is by weight."]


class GiveSheet(TakingSheet):
    """Given away or sold, once the caution about local rules was read."""

    ACT, FIRST = "give", "kg"

    def questions(self) -> list[Answer]:
        return [
            *self.out_of(),
            self.at_most("kg", "Castings", USUAL_KG, self.held(0)),
            Words("to", "To whom"),
            Cycle("sold", "Sold", "", ("no", "yes"), 0),
        ]

    def answered(self, key: str) -> None:
        """Another jar may hold less."""
        if key == "label":
            self.rows.put(self.at_most("kg", "Castings", USUAL_KG, self.held(self.place("label"))))

    def values(self) -> dict[str, Any]:
        sold = "yes" if self.place("sold") else ""
        return {"label": self.label, "kg": self.kg("kg"), "to": self.text("to"), "sold": sold}

    def words(self) -> list[str]:
        return ["Where and how they may be given away or sold, your local authority says.", *self.short()]
