"""How many trays, how often to turn: ways of running a bin side by side, reckoned off the screen's thread."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Static
from textual.worker import Worker, WorkerState, get_current_worker

from trayturn.advice.comparing.compare import DRAWS, compare
from trayturn.advice.comparing.result import Aim, Comparison
from trayturn.advice.comparing.words import sentences, story
from trayturn.advice.outlook import Stopped
from trayturn.advice.pages import Page
from trayturn.domain.profile import Profile
from trayturn.domain.words import clean
from trayturn.tui.commands import COMPARE, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.compare.rows import header, ways_rows
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow

UNREAD = "Its file cannot be read; the bin's own screen says what is wrong with it."
NO_TRAY = "No tray is on the stack yet. Once the first one is started, ways of running this bin stand here."
WORKING = "Each way is run for two years. Keys work meanwhile; Esc leaves and stops it."
BROKEN = "This could not be reckoned ({error}). The journal is whole; nothing was written."
LESS, MORE = 0.5, 2.0
"""Half and twice the scraps of today, beside them."""


class Step(Message):
    """So many steps of so many are done."""

    def __init__(self, done: int, of: int) -> None:
        super().__init__()
        self.done, self.of = done, of


class Answered(Message):
    """The ways are laid side by side."""

    def __init__(self, found: Comparison) -> None:
        super().__init__()
        self.found = found


class CompareScreen(BinFrame):
    """Up and down mark a way, v goes from aim to aim, g lays amounts of scraps beside each other instead."""

    PLACE = COMPARE
    BINDINGS = bindings(COMPARE)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]
    draws: ClassVar[int] = DRAWS

    def __init__(self, key: str) -> None:
        super().__init__(key)
        self.aim = Aim.CASTINGS
        self.amounts = False
        self.found: Comparison | None = None
        self.asked: tuple[object, ...] | None = None
        self.said = ""

    def compose_body(self) -> ComposeResult:
        with Container(classes="body"):
            yield Static(id="aim")
            yield Static(id="columns")
            yield LineList(id="ways")
            with Vertical(id="aside"):
                yield Static(id="story")
                yield Static(id="best")

    def on_mount(self) -> None:
        super().on_mount()
        self.query_one(LineList).focus()

    @property
    def profile(self) -> Profile | None:
        """The bin's profile; None while it is unread, cannot be read or is gone."""
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded.profile if loaded is not None and not loaded.read_only else None

    def show(self, key: str) -> None:
        if key in ("", self.key):
            self._ask()
            self._draw()

    def _ask(self) -> None:
        """Ask anew where the journal or what is laid side by side is another."""
        profile, stack = self.profile, self.stack
        if profile is None or stack is None or not stack.trays:
            self.workers.cancel_group(self, COMPARE)
            self.asked = self.found = None
            return
        asked = (id(profile), stack.as_of.date(), self.amounts)
        if asked != self.asked:
            self.asked, self.said = asked, WORKING
            work = partial(self._reckon, profile, self.amounts)
            self.run_worker(work, group=COMPARE, thread=True, exclusive=True, exit_on_error=False)

    def _reckon(self, profile: Profile, amounts: bool) -> None:
        """In a thread of its own. Stopped work tells nothing."""
        worker, stack = get_current_worker(), self.stack
        if stack is None:
            return
        trays, every, scraps = choices(profile, self.found, amounts)

        def tell(done: int, of: int) -> None:
            if not worker.is_cancelled:
                self.post_message(Step(done, of))

        try:
            found = compare(
                profile,
                stack.as_of,
                trays,
                every,
                scraps,
                draws=self.draws,
                progress=tell,
                cancel=lambda: worker.is_cancelled,
            )
        except Stopped:
            return
        if not worker.is_cancelled:
            self.post_message(Answered(found))

    @on(Step)
    def _went_on(self, event: Step) -> None:
        self.said = f"{WORKING} Step {event.done} of {event.of}."
        self._show_aim()

    @on(Answered)
    def _came(self, event: Answered) -> None:
        self.found, self.said = event.found, ""
        self._draw()
        self.query_one(LineList).marked = event.found.now
        self._show_marked()

    @on(Worker.StateChanged)
    def _broke(self, event: Worker.StateChanged) -> None:
        if event.state is WorkerState.ERROR and event.worker.group == COMPARE and self.is_mounted:
            self.said = BROKEN.format(error=type(event.worker.error).__name__)
            self.found = None
            self._draw()

    def _draw(self) -> None:
        stack = self.stack
        name = clean(stack.setup.name if stack is not None else self.key, 40)
        rests = self.found.rests_on.words if self.found is not None else ""
        self.query_one(TitleRow).show(f"{name}  compare", rests)
        rows = self.query_one(LineList)
        units = stack.setup.units if stack is not None else None
        if self.found is None or units is None:
            rows.show([])
            self.put("#columns", "")
        else:
            rows.show(ways_rows(self.found, self.aim, units, self.app.size.width, self.house.ascii))
            self.put("#columns", header(self.found, self.app.size.width))
        self._show_aim()
        self._show_marked()
        self.refresh_bindings()

    def on_resize(self) -> None:
        super().on_resize()
        self._draw()

    def _show_aim(self) -> None:
        if self.stack is None and not self.house.reading:
            self.put("#aim", UNREAD)
        elif self.stack is not None and not self.stack.trays:
            self.put("#aim", NO_TRAY)
        else:
            self.put("#aim", self.said or f"What do you want most? {self.aim.capitalize()}   (v: another)")

    @on(LineList.Marked)
    def _show_marked(self) -> None:
        found, stack = self.found, self.stack
        place = self.query_one(LineList).marked_key
        if found is None or stack is None or not place.isdecimal():
            self.put("#story", "")
            self.put("#best", "")
            return
        units = stack.setup.units
        lines = story(found.rows[int(place)], units)
        self.query_one("#story", Static).update(Content("\n".join(lines if self.wide else lines[:4])))
        told = list(sentences(found, units))
        order = list(Aim).index(self.aim)
        self.query_one("#best", Static).update(Content("\n".join(told if self.wide else [told[order]])))

    @property
    def marked_page(self) -> Page | None:
        return Page.OUTLOOK

    def action_filter_tray(self) -> None:
        """Another aim."""
        aims = list(Aim)
        self.aim = aims[(aims.index(self.aim) + 1) % len(aims)]
        self._draw()

    def action_filter_kind(self) -> None:
        """Amounts of scraps side by side, or trays and turns again."""
        self.amounts = not self.amounts
        self.show("")

    @on(LineList.Opened)
    def action_open(self) -> None:
        """All of the marked way, and what is best for what."""
        found, stack, place = self.found, self.stack, self.query_one(LineList).marked_key
        if found is None or stack is None or not place.isdecimal():
            return
        units = stack.setup.units
        lines = [*story(found.rows[int(place)], units), "", *sentences(found, units)]
        self.app.push_screen(ReasonScreen("One way of many", lines, self.marked_page))


def choices(
    profile: Profile, found: Comparison | None, amounts: bool
) -> tuple[tuple[int, ...], tuple[float, ...], tuple[float, ...]]:
    """Three, four and five trays by three intervals; or three amounts of scraps by the three counts."""
    count = profile.bin.tray_count
    trays = tuple(sorted({max(2, count - 1), count, count + 1}))
    usual = found.plan.turn_every_days if found is not None else profile.bin.days_between_turns
    if amounts and found is not None:
        kg = found.plan.scraps_kg_per_week
        return trays, (round(usual),), (LESS * kg, kg, MORE * kg)
    return trays, tuple(round(usual * share) for share in (0.75, 1.0, 1.25)), ()
