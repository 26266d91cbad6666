"""The turn day itself: the one thing to do now, and one key to go on. Its place is in the journal."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Static

from trayturn.advice.feeding import feed_next
from trayturn.advice.pages import Page
from trayturn.advice.pantry import Pantry, pantry_of, shipped_pantry
from trayturn.advice.turn_day.tasks import DayView, view_day
from trayturn.advice.turn_day.telling import reasons, to_do
from trayturn.domain.entries import DayStep, Entry
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.words import clean, count
from trayturn.procedure import turn_day as moves
from trayturn.procedure.rests import running_rests
from trayturn.procedure.undoing import take_back
from trayturn.tui.commands import TURN_RUN, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.stack import acts
from trayturn.tui.screens.turn_day import asked, words
from trayturn.tui.screens.turn_day.drawn import standing_now, step_list
from trayturn.tui.widgets.answers import Answers
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.stack_drawing import StackDrawing, picture_of
from trayturn.tui.widgets.timeline.side_view import SideView
from trayturn.tui.widgets.title_row import TitleRow

PAGES = {DayStep.LOOK: Page.SUMP, DayStep.FEED: Page.FEEDING, DayStep.SEPARATE: Page.SEPARATING}


class RunScreen(BinFrame):
    """A turn day from looking in to closing up. Leaving keeps the place."""

    PLACE = TURN_RUN
    BINDINGS = bindings(TURN_RUN)
    CSS_PATH = ["../../frame.tcss", "run_screen.tcss"]

    def __init__(self, key: str) -> None:
        super().__init__(key)
        self._asked: asked.Mark | None = None
        self._trouble = ""

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
                yield Answers(id="answers")
                yield Static(id="about")
                yield Static(id="rests")
                yield Static(id="jobs")
                yield Static(id="hint")
                yield SideView(id="side")

    @property
    def view(self) -> DayView | None:
        """The day under way; None once it is over."""
        return view_day(self.stack) if self.stack is not None else None

    @property
    def _journal(self) -> Sequence[Entry]:
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded.profile.journal if loaded is not None and loaded.profile is not None else ()

    def _pantry(self) -> Pantry:
        loaded = self.house.shelf.loaded.get(self.key)
        if loaded is None or loaded.profile is None:
            return shipped_pantry()
        return self.house.shelf.kept(loaded.profile, pantry_of)

    def show(self, key: str) -> None:
        """Draw the task as the journal has it. Answers given are kept while it is the same one."""
        if key not in ("", self.key):
            return
        if (stack := self.stack) is None:
            self._say(words.GONE)
            return
        if self._trouble == words.GONE:
            self._trouble = ""
        view = view_day(stack)
        self._ask(stack, view)
        self._draw_aside(stack, view)
        self._draw_words(stack, view)
        self.refresh_bindings()

    def _ask(self, stack: Stack, view: DayView | None) -> None:
        """Put the task's questions once: drawing again must not wipe answers."""
        answers = self.query_one(Answers)
        if (task := asked.mark(stack, view)) != self._asked or view is None:
            self._asked, self._trouble = task, ""
            answers.ask(asked.questions(stack, view) if view is not None else [])
            answers.display = bool(answers.answers)
            answers.focus()

    def _draw_aside(self, stack: Stack, view: DayView | None) -> None:
        ended = view is None and bool(stack.past_turn_days)
        self.query_one("#steps", Static).update(step_list(view, ended, self.house.ascii))
        now = standing_now(stack, view)
        drawing = self.query_one(StackDrawing)
        drawing.ascii = self.house.ascii
        drawing.picture = picture_of(now, feed_next(stack).tray)
        lifts = ""
        if view is not None and not view.moved:
            lifts = f"{view.lifts_done} of {count(len(view.moving.lifts), 'lift')}"
        self.query_one(TitleRow).show(f"{clean(stack.setup.name, 40)}  turn day", lifts)

    def _draw_words(self, stack: Stack, view: DayView | None) -> None:
        if view is None:
            self._draw_end(stack)
            return
        task = view.now
        self.put("#place", words.place(view))
        self.put("#to-do", to_do(task, view))
        self.put("#reasons", "\n".join(reasons(task, view, stack, self._pantry())))
        self._draw_rests(stack)
        self.query_one(SideView).look(self.house, _to_come(stack, view))
        self._hint(words.hint(view))
        self._draw_about()

    def _draw_end(self, stack: Stack) -> None:
        said = words.summary(stack)
        self.put("#place", "Summary")
        self.put("#to-do", said[0])
        self.put("#reasons", "\n".join(said[1:]))
        for where in ("#about", "#rests", "#jobs"):
            self.put(where, "")
        self._hint("Space leaves.")

    def _draw_rests(self, stack: Stack) -> None:
        """The rests of this bin that run, and what fits into the time that is left."""
        rests = running_rests([stack], self.house.now)
        self.put("#rests", "\n".join(rest.words(self.house.now) for rest in rests)).display = bool(rests)
        self.put("#jobs", words.jobs_words(stack, rests, self.house.now)).display = bool(rests)

    @on(LineList.Marked)
    def _draw_about(self) -> None:
        answers = self.query_one(Answers)
        self.put("#about", answers.marked_note()).display = bool(answers.answers)

    def _hint(self, text: str) -> None:
        self.put("#hint", self._trouble or text).set_class(bool(self._trouble), "-trouble")

    def tick(self) -> None:
        super().tick()
        if (stack := self.stack) is not None and self.view is not None:
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

    def action_go_on(self) -> None:
        """The one obvious thing."""
        if self._moved_on():
            return
        stack, view = self.stack, self.view
        if stack is None:
            return
        task = view.now if view is not None else None
        if task is None:
            self.action_leave()
        elif task.step is DayStep.FEED:
            acts.feed(self.house, self.key, task.tray)
        elif task.step is DayStep.SEPARATE:
            self._separate(stack, task.tray)
        elif not self.query_one(Answers).tick_next():
            self._finish(stack, task.step)

    def _finish(self, stack: Stack, step: DayStep) -> None:
        answers = self.query_one(Answers)
        if step is DayStep.LOOK and asked.stinks(answers) and self._trouble != words.AMMONIA:
            self._say(words.AMMONIA)
            return
        now = self.house.now
        if step is DayStep.LOOK:
            self._save(moves.looked(stack, asked.look_of(answers.answers), now))
        else:
            self._save(moves.done(stack, now))

    def _separate(self, stack: Stack, tray: str | None) -> None:
        """To the separation of this day that needs hands first."""
        view = self.view
        mine = [one for one in stack.separations if view is None or one.tray in view.day.plan.separating]
        chosen = min(mine, key=_needs_hands, default=None)
        acts.separate(self.house, self.key, chosen.tray if chosen is not None else tray)

    def _moved_on(self) -> bool:
        """Whether the key was meant for a task that is past: another window may have gone on meanwhile."""
        before = self._asked
        self.house.look_again()
        if self.stack is None:
            self._say(words.GONE)
        elif asked.mark(self.stack, self.view) != before:
            self.show("")
            self._say(words.ELSEWHERE)
        return self.stack is None or self._asked != before

    def action_end(self) -> None:
        """Leave this task undone and go on."""
        if self._moved_on() or (stack := self.stack) is None:
            return
        self._save(moves.left_undone(stack, self.house.now))

    def action_back(self) -> None:
        """Take the last thing back, as long as it was done on this day."""
        view = self.view
        if self._moved_on() or view is None:
            return
        taken = take_back(self._journal, self.house.now)
        if any(entry.entry_kind == "turn_day_begun" for entry in taken):
            self._say("The day has only begun. z gives it up.")
        else:
            self._save(taken)

    def action_put_back(self) -> None:
        """Give the day up as it stands."""
        if self._moved_on() or (stack := self.stack) is None:
            return
        if self.house.save(self.key, moves.leave(stack, self.house.now)):
            self.action_leave()
            self.house.say(words.LEFT)

    def action_more(self) -> None:
        self.query_one(Answers).action_step(1)

    def action_less(self) -> None:
        self.query_one(Answers).action_step(-1)

    def on_answers_changed(self, event: Answers.Changed) -> None:
        if self._trouble and self.view is not None and (stack := self.stack) is not None:
            self._trouble = ""
            self._draw_words(stack, self.view)

    def _say(self, text: str) -> None:
        self._trouble = text
        self._hint("")

    def _save(self, entries: Sequence[Entry]) -> None:
        self._trouble = ""
        if entries:
            self.house.save(self.key, entries)


def _to_come(stack: Stack, view: DayView) -> list[tuple[str, str]]:
    """The trays that are to be set on top yet, once those before them are."""
    waiting = [task.tray for task in view.of(DayStep.SET_ON_TOP) if task.open and task.tray]
    begun = bool(stack.separations) or (view.now is not None and view.now.step is DayStep.SET_ON_TOP)
    return [(stack.key, tray) for tray in waiting] if begun else []


def _needs_hands(one: Separation) -> tuple[bool, float]:
    """A step without a timer first, then the one whose time ends first."""
    step = one.step
    ends = step.ends_at if step is not None else None
    return ends is not None, ends.timestamp() if ends is not None else 0.0
