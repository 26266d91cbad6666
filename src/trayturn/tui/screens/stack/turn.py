"""A turn before it is written down: the stack before and after, and what every tray becomes."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.feeding import feed_next
from trayturn.advice.pages import Page
from trayturn.advice.story import move_line
from trayturn.advice.turning import NextTurn, turn_entries
from trayturn.domain.entries import Entry, TrayStarted
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.units import OUNCE_KG
from trayturn.domain.words import clean
from trayturn.tui.ways import go
from trayturn.tui.widgets.answers import Answers, Mass
from trayturn.tui.widgets.sheet import Sheet
from trayturn.tui.widgets.stack_drawing import StackDrawing, picture_of

USUAL_BEDDING = "shredded cardboard"


class TurnScreen(Sheet[None]):
    """Space writes the turn down; Escape leaves everything as it is. Both drawings show what is written."""

    BINDINGS = [
        ("space,enter", "write", "Write it down"),
        ("escape,q", "leave", "Leave"),
        ("plus,equals_sign", "bedding(1)", "More bedding"),
        ("minus", "bedding(-1)", "Less bedding"),
        ("h", "handbook", "Handbook"),
    ]
    DEFAULT_CSS = """
    TurnScreen {
        #drawings { height: 12; }
        #drawings Vertical { width: 1fr; }
        #drawings Static { height: 1; text-style: bold; color: $quiet; }
        Answers { height: auto; max-height: 1; }
        #moves { margin-top: 1; }
        #sheet-keys { color: $act; }
    }
    """

    def __init__(self, key: str, profile: Profile, stack: Stack, plan: NextTurn) -> None:
        super().__init__(
            plan.what, "Space writes the turn down   Esc leaves all as it is   h opens the handbook"
        )
        self.key, self.profile, self.stack, self.plan = key, profile, stack, plan
        self.material, self.bedding_kg = _last_bedding(profile)

    def compose_body(self) -> ComposeResult:
        with Horizontal(id="drawings"):
            with Vertical():
                yield Static(Content("Before"))
                yield StackDrawing(picture_of(self.stack, None), id="before")
            with Vertical():
                yield Static(Content("After"))
                yield StackDrawing(picture_of(self.after, feed_next(self.after).tray), id="after")
        yield Answers(id="bedding")
        yield Static(Content("\n".join(move_lines(self.plan)) or "No tray moves yet."), id="moves")

    def on_mount(self) -> None:
        super().on_mount()
        for drawing in self.query(StackDrawing):
            drawing.can_focus = False
            drawing.ascii = self.house.ascii
        answers = self.query_one(Answers)
        answers.display = any(isinstance(entry, TrayStarted) for entry in self.entries)
        us = self.stack.setup.units is Units.US
        label = f"Tray {self.plan.fresh} gets {clean(self.material, 30)}"
        answers.ask([Mass("bedding", label, "", self.bedding_kg, 4 * OUNCE_KG if us else 0.05, us)])

    @property
    def entries(self) -> list[Entry]:
        """What writing the turn down would add to the journal."""
        bedding = {self.material: self.bedding_kg} if self.bedding_kg else {}
        return turn_entries(self.stack, self.house.now, bedding)

    @property
    def after(self) -> Stack:
        """The stack as the entries would leave it."""
        return replay(self.profile.with_entries(self.entries), self.stack.as_of)

    def action_bedding(self, by: int) -> None:
        answers = self.query_one(Answers)
        if answers.display:
            answers.action_step(by)

    def on_answers_changed(self, event: Answers.Changed) -> None:
        mass = event.answers.answer("bedding")
        self.bedding_kg = mass.kg if isinstance(mass, Mass) else None
        self.query_one("#after", StackDrawing).picture = picture_of(self.after, feed_next(self.after).tray)

    def action_write(self) -> None:
        if not self.entries:
            self.house.say("There is nothing to turn yet")
        elif self.house.save(self.key, self.entries, "Turn saved. u takes it back"):
            self.dismiss()

    def action_leave(self) -> None:
        self.dismiss()

    def action_handbook(self) -> None:
        go(self.house, "handbook", Page.TURNING)


def move_lines(plan: NextTurn) -> list[str]:
    """The moves in words. A tray that leaves and comes in again does so only after its separation."""
    leaving = {move.tray for move in plan.moves if move.to_level is None}
    lines = []
    for move in plan.moves:
        line = move_line(move)
        later = move.tray in leaving and move.to_level is not None
        lines.append(f"After its separation t{line[1:]}" if later else line)
    return lines


def _last_bedding(profile: Profile) -> tuple[str, float | None]:
    """What the keeper started a tray with last, and how much: the likeliest guess, shown to be changed."""
    started = [
        entry.bedding_kg for entry in profile.journal if isinstance(entry, TrayStarted) and entry.bedding_kg
    ]
    return max(started[-1].items(), key=lambda pair: pair[1]) if started else (USUAL_BEDDING, None)
