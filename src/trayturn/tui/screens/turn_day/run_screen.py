"""The turn day itself: the one thing to do now, and one key to go on. Its place is in the journal."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Static

from trayturn.advice.pages import Page
from trayturn.advice.turn_day.jobs import MOST
from trayturn.advice.turn_day.tasks import DayView, view_day
from trayturn.advice.turn_day.telling import reasons, resting, to_do_now
from trayturn.domain.entries import DayStep
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, count
from trayturn.procedure.rests import RunningRest, running_rests
from trayturn.procedure.turn_day import Look
from trayturn.procedure.turn_day_back import looked_before
from trayturn.tui.commands import TURN_RUN, bindings
from trayturn.tui.screens.turn_day import asked, words
from trayturn.tui.screens.turn_day.beside import piles
from trayturn.tui.screens.turn_day.day_walk import DayWalk
from trayturn.tui.screens.turn_day.drawn import picture_now, step_list
from trayturn.tui.widgets.answers import Answers
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.stack_drawing import StackDrawing
from trayturn.tui.widgets.timeline.side_view import SideView
from trayturn.tui.widgets.title_row import TitleRow

PILES_FIT = 48
"""Columns for the places beside the bin in the smallest window."""
PAGES = {DayStep.LOOK: Page.SUMP, DayStep.FEED: Page.FEEDING, DayStep.SEPARATE: Page.SEPARATING}


class RunScreen(DayWalk):
    """A turn day from looking in to closing up. Leaving keeps the place."""

    PLACE = TURN_RUN
    BINDINGS = bindings(TURN_RUN)
    CSS_PATH = ["../../frame.tcss", "run_screen.tcss"]

    def compose_body(self) -> ComposeResult:
        """The steps and the stack as it stands at the side, what to do now in the middle."""
        with Horizontal(classes="body"):
            with Vertical(id="aside"):
                yield Static(id="steps")
                yield (drawing := StackDrawing(id="drawing"))
                drawing.can_focus = False
            with Vertical(id="main"):
                yield Static(id="place")
                yield Static(id="to-do")
                yield Static(id="reasons")
                yield Static(id="piles")
                yield Answers(id="answers")
                yield Static(id="about")
                yield Static(id="rests")
                yield Static(id="jobs")
                yield Static(id="hint")
                yield SideView(id="side")

    def show(self, key: str) -> None:
        """Draw the task as the journal has it. Answers given are kept while it is the same one."""
        if key not in ("", self.key):
            return
        if (stack := self.stack) is None:
            self.say(words.GONE)
            return
        if self.trouble == words.GONE:
            self.trouble = ""
        view = view_day(stack)
        self._ask(stack, view)
        self._draw_aside(stack, view)
        self._draw_words(stack, view)
        self.refresh_bindings()

    def _ask(self, stack: Stack, view: DayView | None) -> None:
        """Put the task's questions once: drawing again must not wipe answers."""
        answers = self.query_one(Answers)
        if (task := asked.mark(stack, view)) != self.asked or view is None:
            self.asked, self.trouble = task, ""
            answers.ask(asked.questions(stack, view, self._seen(view)) if view is not None else [])
            answers.display = bool(answers.answers)
            answers.focus()

    def _seen(self, view: DayView) -> Look | None:
        profile = self._profile
        return looked_before(profile.journal, view.day) if profile is not None else None

    def _draw_aside(self, stack: Stack, view: DayView | None) -> None:
        ended = view is None and bool(stack.past_turn_days)
        self.query_one("#steps", Static).update(step_list(view, ended, self.house.ascii))
        drawing = self.query_one(StackDrawing)
        drawing.ascii = self.house.ascii
        drawing.picture = picture_now(stack, view)
        lifts = ""
        if view is not None and not view.moved:
            lifts = f"{view.lifts_done} of {count(len(view.moving.lifts), 'lift')}"
        elif view is not None and view.brought_in_part:
            lifts = "bringing a tray back"
        self.query_one(TitleRow).show(f"{clean(stack.setup.name, 40)}  turn day", lifts)

    def _draw_words(self, stack: Stack, view: DayView | None) -> None:
        if view is None:
            self._draw_end(stack)
            return
        task = view.now
        self.put("#place", words.place(view))
        self.put("#to-do", to_do_now(view, stack))
        why = "\n".join(reasons(task, view, stack, self._pantry()))
        self.put("#reasons", why).display = bool(why)
        beside = piles(view, PILES_FIT, ascii_only=self.house.ascii)
        self.query_one("#piles", Static).update(beside)
        self.query_one("#piles").display = bool(beside)
        self._draw_rests(stack)
        self.query_one(SideView).look(self.house, _to_come(stack, view))
        self.show_hint(words.hint(view))
        self._draw_about()

    def _draw_end(self, stack: Stack) -> None:
        said = words.summary(stack)
        self.put("#place", "Summary")
        self.put("#to-do", said[0])
        self.put("#reasons", "\n".join(said[1:])).display = True
        for where in ("#piles", "#about", "#rests", "#jobs"):
            self.put(where, "").display = False
        self.show_hint("Space leaves.")

    def _draw_rests(self, stack: Stack) -> None:
        """The rests of this bin that run, and what fits into the time that is left."""
        rests = running_rests([stack], self.house.now)
        told = "\n".join(rest.words_here(self.house.now) for rest in rests)
        self.put("#rests", told).display = bool(rests)
        most = MOST if self.wide else max(1, 3 - len(rests))
        view = self.view
        # Before its separations the day itself wants hands, whatever rests in another bin.
        waits = view is not None and resting(view, stack)
        stacks = self.house.shelf.stacks() if waits else []
        fitting = words.jobs_words(stack, stacks, self.house.now, most)
        self.put("#jobs", fitting).display = bool(fitting)

    @on(LineList.Marked)
    def _draw_about(self) -> None:
        answers = self.query_one(Answers)
        self.put("#about", answers.marked_note()).display = bool(answers.answers)

    def show_hint(self, text: str) -> None:
        self.put("#hint", self.trouble or text).set_class(bool(self.trouble), "-trouble")

    def is_about(self, rest: RunningRest) -> bool:
        return rest.bin == self.key and self.view is not None

    def tick(self) -> None:
        super().tick()
        view = self.view
        if (stack := self.stack) is not None and view is not None:
            self.put("#to-do", to_do_now(view, stack))
            self._draw_rests(stack)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if not self.is_mounted:
            return True
        if action in ("end", "back", "put_back"):
            return True if self.view is not None else None
        return True

    @property
    def marked_page(self) -> Page | None:
        """The page behind the task that is next."""
        view = self.view
        task = view.now if view is not None else None
        return PAGES.get(task.step, Page.TURNING) if task is not None else Page.TURNING

    def on_answers_changed(self, event: Answers.Changed) -> None:
        if self.trouble and self.view is not None and (stack := self.stack) is not None:
            self.trouble = ""
            self._draw_words(stack, self.view)


def _to_come(stack: Stack, view: DayView) -> list[tuple[str, str]]:
    """The trays that are to be set on top yet, once those before them are."""
    waiting = [task.tray for task in view.of(DayStep.SET_ON_TOP) if task.open and task.tray]
    begun = bool(stack.separations) or (view.now is not None and view.now.step is DayStep.SET_ON_TOP)
    return [(stack.key, tray) for tray in waiting] if begun else []
