"""A turn day before it begins: the stack before and after, and everything that the day takes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from functools import partial

from textual import on, work
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Static

from trayturn.advice.feeding import feed_next
from trayturn.advice.pages import Page
from trayturn.advice.pantry import Pantry, pantry_of, shipped_pantry
from trayturn.advice.stock.habits import main_bedding
from trayturn.advice.stock.turns import turn_supported
from trayturn.advice.turn_day.counting import choices
from trayturn.advice.turn_day.plan import Wish, day_entries, turn_now_entries
from trayturn.advice.turn_day.plan_words import full_lines, short_lines, wide_lines
from trayturn.advice.turn_day.whole import Whole, whole_day
from trayturn.advice.turning import next_turn
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.words import clean, due
from trayturn.tui.commands import TURN_DAY, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.separation import typed
from trayturn.tui.screens.turn_day import arranging
from trayturn.tui.screens.turn_day.drawn import fresh_tray
from trayturn.tui.screens.turn_day.plan_rows import BEDDING, COUNT, bedding_name, fitting, rows_of, tray_of
from trayturn.tui.ways import go
from trayturn.tui.widgets.answers import Answer, Answers, Cycle, Mass
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.stack_drawing import StackDrawing, picture_of
from trayturn.tui.widgets.title_row import TitleRow
from trayturn.tui.widgets.type_in import TypeIn

LINES_LOW = 4
"""Lines of what is to be known in a small window."""
NOTHING = "There is nothing to turn yet: no tray is on the stack. Esc leads back; a puts the first one on."


class PlanScreen(BinFrame):
    """Space begins the day as it is planned; e writes the turn down at once."""

    PLACE = TURN_DAY
    BINDINGS = bindings(TURN_DAY)
    CSS_PATH = ["../../frame.tcss", "plan_screen.tcss"]

    def __init__(self, key: str) -> None:
        super().__init__(key)
        self.wish = Wish()
        self.whole: Whole | None = None
        self._filled = False

    def compose_body(self) -> ComposeResult:
        """Before and after beside each other, the rows of the plan, and what is to be known first."""
        with Horizontal(classes="body"):
            with Vertical(id="pictures"):
                with Horizontal(id="titles"):
                    yield Static("Now", id="before-title")
                    yield Static("After", id="after-title")
                with Horizontal(id="drawings"):
                    yield StackDrawing(id="before")
                    yield StackDrawing(id="after")
            with Vertical(id="main"):
                yield Answers(id="plan")
                yield Static(id="about")
                yield Static(id="known")

    def on_mount(self) -> None:
        super().on_mount()
        for drawing in self.query(StackDrawing):
            drawing.can_focus = False
            drawing.ascii = self.house.ascii
        self.query_one(Answers).focus()

    @property
    def profile(self) -> Profile | None:
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded.profile if loaded is not None and not loaded.read_only else None

    def _pantry(self) -> Pantry:
        profile = self.profile
        return self.house.shelf.kept(profile, pantry_of) if profile is not None else shipped_pantry()

    def show(self, key: str) -> None:
        """Plan anew, as the bin stands and as the keeper wishes."""
        if key not in ("", self.key):
            return
        stack = self.stack
        if stack is None or not stack.trays or self.profile is None:
            self._show_nothing()
            return
        if not self._filled:
            self.wish, self._filled = Wish(bedding_kg=_last_bedding(stack)), True
        self.whole = whole_day(stack, self._pantry(), self.wish)
        self._show_plan(stack, self.whole)

    def _show_nothing(self) -> None:
        self.whole = None
        self.query_one(TitleRow).show(f"{clean(self.key, 40)}  turn day")
        self.query_one(Answers).ask([])
        self.put("#about", "")
        self.put("#known", NOTHING)

    def _show_plan(self, stack: Stack, whole: Whole) -> None:
        answers = self.query_one(Answers)
        marked = answers.answers[answers.marked].key if answers.answers else ""
        rows = rows_of(stack, whole.plan, self.wish, choices(stack))
        answers.ask(rows)
        answers.marked = next((n for n, row in enumerate(rows) if row.key == marked), 0)
        when = f"due {due(turn_due, stack.as_of)}" if (turn_due := _due(stack)) is not None else ""
        by = "arranged by hand" if whole.plan.by_hand else ""
        self.query_one(TitleRow).show(f"{clean(stack.setup.name, 40)}  turn day", when, by)
        self.query_one("#before", StackDrawing).picture = picture_of(stack, feed_next(stack).tray)
        after = self.after(stack, whole)
        self.query_one("#after", StackDrawing).picture = picture_of(after, whole.plan.fed)
        self._show_known()
        self._show_about()
        self.refresh_bindings()

    def after(self, stack: Stack, whole: Whole) -> Stack:
        """The stack as it will stand at last: without what is separated, and with what comes back fresh."""
        profile = self.profile
        if profile is None:
            return stack
        now = max(stack.as_of, self.house.now)
        moved = replay(profile.with_entries(turn_now_entries(stack, whole.plan, now)), now)
        left = {tray.id: tray for tray in moved.trays if tray.id not in whole.plan.separating}
        last = whole.plan.at_last
        trays = [left[tray] if tray in left else fresh_tray(moved, tray) for tray in last]
        return _with(moved, [*trays, *(tray for tray in left.values() if tray.id not in last)])

    def _show_known(self) -> None:
        """As much of what is to be known as there is room for; what is left out is a key away."""
        stack, known = self.stack, self.query_one("#known", Static)
        if stack is None or self.whole is None:
            return
        lines = wide_lines(self.whole, stack) if self.wide else short_lines(self.whole, stack)
        width, height = known.content_size.width or self.size.width - 2, known.content_size.height
        rows = LINES_LOW if not self.wide else height
        self.put("#known", "\n".join(fitting(lines, width, rows) if rows else lines))

    def on_resize(self) -> None:
        super().on_resize()
        self.call_after_refresh(self._show_known)

    @on(LineList.Marked)
    def _show_about(self) -> None:
        self.put("#about", self.query_one(Answers).marked_note())

    @property
    def marked_page(self) -> Page | None:
        return Page.TURNING

    @property
    def marked(self) -> Answer | None:
        answers = self.query_one(Answers)
        return answers.answers[answers.marked] if answers.answers else None

    def action_more(self) -> None:
        self._step(1)

    def action_less(self) -> None:
        self._step(-1)

    def _step(self, by: int) -> None:
        """The marked tray up or down, or more or less of what is marked."""
        tray = tray_of(self.marked)
        if tray is None or self.whole is None:
            self.query_one(Answers).action_step(by)
        elif not self._stays(tray):
            self._wish(arranging.moved(self.whole.plan, self.wish, tray, by))

    def _stays(self, tray: str) -> bool:
        """Whether the tray cannot be moved, since it is being separated; that is then said."""
        running = self.stack is not None and self.stack.separation(tray) is not None
        if running:
            self.house.say(f"Tray {tray} is being separated: it stays on top until that is over.")
        return running

    def action_filter_kind(self) -> None:
        """Another stage for the marked tray."""
        tray = tray_of(self.marked)
        if tray is not None and self.whole is not None and not self._stays(tray):
            self._wish(arranging.restaged(self.whole.plan, self.wish, tray))

    def action_archive(self) -> None:
        """The fresh tray out, or in after all."""
        stack, whole = self.stack, self.whole
        if stack is None or whole is None:
            return
        if self.wish.order:
            self._fresh_by_hand(stack, whole)
        elif any(not one.wish.bring for one in choices(stack)):
            self._wish(Wish(not self.wish.bring, 0, bedding_kg=self.wish.bedding_kg))
        else:
            self.house.say("Without the fresh tray no tray could be fed.")

    def _fresh_by_hand(self, stack: Stack, whole: Whole) -> None:
        wish = arranging.fresh_out_or_in(stack, whole.plan, self.wish)
        if wish is None:
            self.house.say("No spare tray is left to come in.")
        else:
            self._wish(wish)

    def action_filter_tray(self) -> None:
        """Mark the next tray, from the top down and around again."""
        answers = self.query_one(Answers)
        rows = [n for n, row in enumerate(answers.answers) if tray_of(row) is not None]
        if rows:
            answers.marked = next((n for n in rows if n > answers.marked), rows[0])

    def action_back(self) -> None:
        """The usual plan again."""
        self._wish(Wish(bedding_kg=self.wish.bedding_kg))

    def on_answers_changed(self, event: Answers.Changed) -> None:
        row = event.answers.answer(event.key)
        stack = self.stack
        if stack is None:
            return
        if isinstance(row, Mass) and row.key == BEDDING:
            kg = {bedding_name(stack, self.wish): row.kg} if row.kg else {}
            self._wish(Wish(self.wish.bring, self.wish.more, self.wish.order, self.wish.stages, kg))
        elif isinstance(row, Cycle) and row.key == COUNT and row.chosen is not None:
            one = choices(stack)[row.chosen].wish
            self._wish(Wish(one.bring, one.more, bedding_kg=self.wish.bedding_kg))

    def _wish(self, wish: Wish) -> None:
        if wish != self.wish:
            self.wish = wish
            self.show("")

    def action_open(self) -> None:
        """Type the marked weight; otherwise the whole day to read."""
        row, stack = self.marked, self.stack
        if isinstance(row, Mass):
            self._type_in(row)
        elif self.whole is not None and stack is not None:
            self.app.push_screen(ReasonScreen("The turn day", full_lines(self.whole, stack), Page.TURNING))

    @work
    async def _type_in(self, row: Mass) -> None:
        sheet = TypeIn(row.label, "", typed.example(row), partial(typed.trouble, row))
        text = await self.app.push_screen_wait(sheet)
        if text is not None:
            self.query_one(Answers).put(typed.answered(row, text))

    def action_go_on(self) -> None:
        """Begin the day."""
        stack = self.stack
        if self.whole is None or stack is None:
            self.house.say("There is nothing to turn yet")
            return
        entries = day_entries(self.whole.plan, max(stack.as_of, self.house.now))
        if entries and self.house.save(self.key, entries):
            self.app.pop_screen()
            go(self.house, "turn_day_run", self.key)

    def action_end(self) -> None:
        """It was done already: the turn stands at once, without the guide."""
        stack = self.stack
        if self.whole is None or stack is None:
            self.house.say("There is nothing to turn yet")
        elif self.house.save(self.key, turn_now_entries(stack, self.whole.plan, self.house.now)):
            self.action_leave()
            self.house.say("Turn saved. u takes it back")


def _due(stack: Stack) -> datetime | None:
    return next_turn(stack).due


def _with(stack: Stack, trays: Sequence[TrayState]) -> Stack:
    """The stack with these trays alone, each on the level it then has."""
    return replace(stack, trays=tuple(replace(tray, level=n) for n, tray in enumerate(trays, 1)))


def _last_bedding(stack: Stack) -> dict[str, float]:
    """What the keeper filled a tray with last, or the less that there is: a guess, shown to be changed."""
    material = main_bedding(stack)
    filled = [start.bedding_kg for start in stack.last_starts if start.bedding_kg]
    support = turn_supported(stack, stack.as_of)
    thin_kg = support.thin_kg if support is not None else None
    kg = thin_kg or (filled[-1].get(material) if filled else None)
    return {material: kg} if kg else {}
