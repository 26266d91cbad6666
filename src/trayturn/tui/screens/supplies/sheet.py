"""One supply written down with gloves on: what happened to it by digit, and how much by - and +."""

from __future__ import annotations

from dataclasses import dataclass, replace

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.bands import rough_mass
from trayturn.advice.stock.outlook import Outlook
from trayturn.domain.setup import Units
from trayturn.domain.supplies import GRIT, fold
from trayturn.domain.units import OUNCE_KG, UnitError, parse_mass, show_mass
from trayturn.domain.words import clean
from trayturn.tui.screens.forms.store_forms import WAYS, supplies_entry
from trayturn.tui.widgets.answers import HEAVIEST_KG, Answers, Mass, Pick
from trayturn.tui.widgets.line_list import Span
from trayturn.tui.widgets.sheet import Sheet
from trayturn.tui.widgets.type_in import TypeIn

KEYS = "Space writes it down   1-3 what   - + how much   Enter types it   Esc leaves"
GRIT_DUST = "Dry grit dusts, and the dust harms: damp it, or wear a mask."
WAY_CODES = tuple(option.value for option in WAYS)
SAID = {"in": "What came in is saved", "counted": "The count is saved", "out": "What went is saved"}


@dataclass(frozen=True, slots=True)
class Held(Mass):
    """A mass that may be nothing."""

    def spans(self, width: int, ascii_only: bool) -> tuple[Span, ...]:
        shown = show_mass(self.kg, Units.US if self.us else Units.METRIC) if self.kg else "none"
        return ((f"{self.label:<{width}}", "muted"), (f"-  {shown}  +", "strong"))

    def stepped(self, by: int) -> Held:
        steps = round((self.kg or 0.0) / self.step_kg) + by
        return replace(self, kg=round(min(max(0, steps) * self.step_kg, HEAVIEST_KG), 6))


def step_for(one: Outlook, units: Units) -> float:
    """A handy step, kg: finer for what there is little of."""
    size = max(one.supply.kg or 0.0, one.turn.high if one.turn else 0.0, one.month.mid)
    fine, middle, coarse = (
        (OUNCE_KG / 2, 2 * OUNCE_KG, 4 * OUNCE_KG) if units is Units.US else (0.01, 0.05, 0.1)
    )
    return fine if size < 0.3 else middle if size < 2 else coarse


class SupplySheet(Sheet[None]):
    """What came in, was counted or went of one supply. It is on disk before the sheet closes."""

    BINDINGS = [
        ("space", "write", "Write it down"),
        ("enter", "type", "Type it"),
        ("escape,q", "leave", "Leave"),
        ("plus,equals_sign", "step(1)", "More"),
        ("minus", "step(-1)", "Less"),
    ]
    DEFAULT_CSS = """
    SupplySheet {
        Answers { height: 2; }
        #after { margin-top: 1; color: $quiet; }
        #sheet-keys { color: $act; }
    }
    """

    def __init__(self, key: str, one: Outlook, units: Units, way: str) -> None:
        super().__init__(clean(one.name, 60), KEYS)
        self.key, self.one, self.units, self.first_way = key, one, units, way
        self.step_kg = step_for(one, units)
        self._by_way = {code: self._guess(code) for code in WAY_CODES}
        self._shown_way = way

    def compose_body(self) -> ComposeResult:
        yield Answers(id="answers")
        yield Static(id="after")

    def on_mount(self) -> None:
        super().on_mount()
        way = Pick("way", "What", "", tuple(option.label for option in WAYS), WAY_CODES.index(self.first_way))
        us = self.units is Units.US
        answers = self.query_one(Answers)
        answers.ask([way, Held("kg", "How much", "", self._by_way[self.first_way], self.step_kg, us)])
        answers.marked = 1
        answers.focus()
        self._say_after()

    def _guess(self, way: str) -> float:
        """The likeliest amount in whole steps: what is to be gathered, what the journal has, or one step."""
        held = self.one.supply.kg
        likely = {"in": self.one.gather_kg or 10 * self.step_kg, "counted": held or 0.0, "out": self.step_kg}
        steps = likely[way] / self.step_kg
        return round(max(0, round(steps) if way == "counted" else -int(-steps // 1)) * self.step_kg, 6)

    @property
    def way(self) -> str:
        pick = self.query_one(Answers).answer("way")
        return WAY_CODES[pick.chosen or 0] if isinstance(pick, Pick) else self.first_way

    @property
    def held(self) -> Held:
        row = self.query_one(Answers).answer("kg")
        assert isinstance(row, Held)
        return row

    @on(Answers.Changed)
    def _changed(self) -> None:
        """Each way keeps the amount that was set for it."""
        if self.way != self._shown_way:
            self._shown_way = self.way
            self.query_one(Answers).put(replace(self.held, kg=self._by_way[self.way]))
        self._by_way[self.way] = self.held.kg or 0.0
        self._say_after()

    def _say_after(self) -> None:
        lines = [self._after()] + ([GRIT_DUST] if fold(self.one.name) == GRIT else [])
        self.query_one("#after", Static).update(Content("\n".join(lines)))

    def _after(self) -> str:
        held, kg = self.one.supply.kg, self.held.kg or 0.0
        if self.way == "counted":
            was = "" if held is None else f" By the journal there were {self._shown(held)}."
            return f"From then on there are {self._shown(kg)} in stock.{was}"
        if held is None:
            return "How much there is is not known; counting it would tell." if self.way == "out" else ""
        if self.way == "out" and kg > held:
            return f"That is more than the {self._shown(held)} there is by the journal; 2 counts it anew."
        left = held + kg if self.way == "in" else held - kg
        return f"In stock now {self._shown(held)}, then {self._shown(left)}."

    def _shown(self, kg: float) -> str:
        return rough_mass(kg, self.units) if kg > 1e-9 else "none"

    def action_step(self, by: int) -> None:
        answers = self.query_one(Answers)
        answers.marked = 1
        answers.action_step(by)

    def action_write(self) -> None:
        try:
            entry = supplies_entry(self.way, {self.one.name: self.held.kg or 0.0}, self.house.now)
        except ValueError as slip:
            self.query_one("#after", Static).update(Content(str(slip)))
            return
        if self.house.save(self.key, [entry], f"{SAID[self.way]}. u takes it back"):
            self.dismiss()

    def action_type(self) -> None:
        """Clean hands may type the amount."""
        example = "such as 1.5 lb" if self.units is Units.US else "such as 750 g"

        def keep(text: str | None) -> None:
            if text is not None:
                self.query_one(Answers).put(replace(self.held, kg=parse_mass(text, self.units)))

        self.house.push_screen(
            TypeIn(f"How much of {clean(self.one.name, 60)}?", "", example, self._wrong), keep
        )

    def _wrong(self, text: str) -> str | None:
        try:
            heavy = parse_mass(text, self.units) > HEAVIEST_KG
        except UnitError as slip:
            return str(slip)
        return f"It must be at most {show_mass(HEAVIEST_KG, self.units)}." if heavy else None

    def action_leave(self) -> None:
        self.dismiss()
