"""A turn before it is written down: the stack before and after, and what every tray becomes."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.feeding import feed_next
from trayturn.advice.pages import Page
from trayturn.advice.stock.habits import main_bedding
from trayturn.advice.stock.turn_words import short_line, stock_line, support_lines
from trayturn.advice.stock.turns import turn_supported
from trayturn.advice.story import move_line
from trayturn.advice.turning import NextTurn, next_turn, turn_entries
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

TALL = 32
"""Lines of a window that has room for all that can be done about a short stock."""


class TurnScreen(Sheet[None]):
    """Space writes the turn down; Escape leaves everything as it is. Both drawings show what is written.

    What the stock lacks for the fresh tray stands below; `x` leaves that tray out.
    """

    BINDINGS = [
        ("space,enter", "write", "Write it down"),
        ("escape,q", "leave", "Leave"),
        ("plus,equals_sign", "bedding(1)", "More bedding"),
        ("minus", "bedding(-1)", "Less bedding"),
        ("x", "leave_out", "Leave the fresh tray out"),
        ("h", "handbook", "Handbook"),
    ]
    DEFAULT_CSS = """
    TurnScreen {
        #drawings { height: 12; }
        #drawings Vertical { width: 1fr; }
        #drawings Static { height: 1; text-style: bold; color: $quiet; }
        Answers { height: auto; max-height: 1; }
        #stock { color: $quiet; &.-short { color: $act; } }
        #moves { margin-top: 1; }
        &.-low {
            #sheet-body { padding: 0 1 0 2; }
            #moves { margin-top: 0; }
        }
        #sheet-keys { color: $act; }
    }
    """

    def __init__(self, key: str, profile: Profile, stack: Stack, plan: NextTurn) -> None:
        super().__init__(plan.what, _keys(""))
        self.key, self.profile, self.stack, self.plan = key, profile, stack, plan
        self.support = turn_supported(stack, stack.as_of)
        self.bring = True
        self.material, self.bedding_kg = _last_bedding(stack)
        if self.support is not None and self.support.thin_kg is not None:
            self.bedding_kg = round(self.support.thin_kg, 3)

    def compose_body(self) -> ComposeResult:
        with Horizontal(id="drawings"):
            with Vertical():
                yield Static(Content("Before"))
                yield StackDrawing(picture_of(self.stack, None), id="before")
            with Vertical():
                yield Static(Content("After"))
                yield StackDrawing(picture_of(self.after, feed_next(self.after).tray), id="after")
        yield Answers(id="bedding")
        yield Static(id="stock")
        yield Static(id="moves")

    def on_mount(self) -> None:
        super().on_mount()
        self.set_class(self.app.size.height < TALL, "-low")
        for drawing in self.query(StackDrawing):
            drawing.can_focus = False
            drawing.ascii = self.house.ascii
        answers = self.query_one(Answers)
        us = self.stack.setup.units is Units.US
        label = f"Tray {self.plan.fresh} gets {clean(self.material, 30)}"
        answers.ask([Mass("bedding", label, "", self.bedding_kg, 4 * OUNCE_KG if us else 0.05, us)])
        self._show_turn()

    def on_resize(self) -> None:
        self.set_class(self.app.size.height < TALL, "-low")
        self._show_turn()

    def _show_turn(self) -> None:
        """What is moved, what it is filled with, and what the stock says to that."""
        self.query_one(Answers).display = any(isinstance(entry, TrayStarted) for entry in self.entries)
        self.query_one("#moves", Static).update(
            Content("\n".join(move_lines(self.plan)) or "No tray moves yet.")
        )
        lines = self._stock_lines()
        stock = self.query_one("#stock", Static)
        stock.update(Content("\n".join(lines)))
        stock.display = bool(lines)
        stock.set_class(self.bring and self.support is not None and self.support.short, "-short")
        tray = self.support.tray if self.can_leave_out and self.support is not None else ""
        self.query_one("#sheet-keys", Static).update(
            Content(_keys(tray, "leaves" if self.bring else "takes"))
        )
        self.query_one("#after", StackDrawing).picture = picture_of(self.after, feed_next(self.after).tray)

    def _stock_lines(self) -> tuple[str, ...]:
        """The stock against the fresh tray; where there is room, all that can be done about it."""
        if self.support is None:
            return ()
        if not self.bring:
            return (f"Tray {self.support.tray} stays out until there is bedding for it.",)
        if not self.support.short:
            return (stock_line(self.support),)
        return (short_line(self.support),) if self.has_class("-low") else support_lines(self.support)

    @property
    def can_leave_out(self) -> bool:
        """Whether the turn can be made without its fresh tray: another one can be fed after it."""
        return self.support is not None and self.support.without is not None

    @property
    def entries(self) -> list[Entry]:
        """What writing the turn down would add to the journal."""
        bedding = {self.material: self.bedding_kg} if self.bedding_kg else {}
        return turn_entries(self.stack, self.house.now, bedding, bring=self.bring)

    @property
    def after(self) -> Stack:
        """The stack as the entries would leave it, which are written a little after it was looked at."""
        now = max(self.stack.as_of, self.house.now)
        return replay(self.profile.with_entries(self.entries), now)

    def action_bedding(self, by: int) -> None:
        answers = self.query_one(Answers)
        if answers.display:
            answers.action_step(by)

    def on_answers_changed(self, event: Answers.Changed) -> None:
        mass = event.answers.answer("bedding")
        self.bedding_kg = mass.kg if isinstance(mass, Mass) else None
        self.query_one("#after", StackDrawing).picture = picture_of(self.after, feed_next(self.after).tray)

    def action_leave_out(self) -> None:
        """Turn with one tray fewer, or with it after all."""
        if self.can_leave_out:
            self.bring = not self.bring
            self.plan = next_turn(self.stack, bring=self.bring)
            self._show_turn()

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


def _keys(tray: str, does: str = "leaves") -> str:
    """The keys of the turn: `x leaves tray D out`, or takes it in after all."""
    out = f"   x {does} tray {tray} {'out' if does == 'leaves' else 'in'}" if tray else ""
    return f"Space writes the turn down{out}   Esc leaves   h handbook"


def _last_bedding(stack: Stack) -> tuple[str, float | None]:
    """What the keeper started a tray with last, and how much: the likeliest guess, shown to be changed."""
    material = main_bedding(stack)
    started = [start.bedding_kg for start in stack.last_starts if start.bedding_kg]
    return material, started[-1].get(material) if started else None
