"""The separation screen: what to do now, how long is left, and one key to go on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Digits, Static

from trayturn.advice.links import page_for
from trayturn.advice.pages import Page
from trayturn.advice.turn_day.jobs import hands_free
from trayturn.domain.entries import Step
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.words import clean, count, countdown
from trayturn.procedure.rests import RunningRest
from trayturn.procedure.stepper import view
from trayturn.tui.commands import SEPARATION, bindings
from trayturn.tui.moving import others
from trayturn.tui.screens.separation import steps, wording
from trayturn.tui.screens.separation.on_tray import GONE
from trayturn.tui.screens.separation.step_list import step_list
from trayturn.tui.screens.separation.walk import Walk
from trayturn.tui.widgets.answers import Answer, Answers
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.stack_drawing import StackDrawing, picture_of
from trayturn.tui.widgets.timeline.side_view import SideView
from trayturn.tui.widgets.title_row import TitleRow

PAGES = {Step.GET_READY: Page.CAUTIONS, Step.SETTLE: Page.HATCHING, Step.CLEAN_UP: Page.CASTINGS}


class SeparationScreen(Walk):
    """One tray, from getting ready to the summary. Leaving keeps the place: it is in the journal."""

    PLACE = SEPARATION
    BINDINGS = bindings(SEPARATION)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]
    said_hint = ""
    """What the keys do before the separation and after it."""

    def compose_body(self) -> ComposeResult:
        """The steps and the stack at the side, the step that is on in the middle."""
        with Horizontal(classes="body"):
            with Vertical(id="aside"):
                yield Static(id="steps")
                yield (drawing := StackDrawing(id="drawing"))
                drawing.can_focus = False
            with Vertical(id="main"):
                yield Static(id="place")
                yield Static(id="to-do")
                with Horizontal(id="time"):
                    yield Digits("", id="digits")
                    yield Static(id="time-words")
                yield Static(id="reasons")
                yield Answers(id="answers")
                yield Static(id="about")
                yield Static(id="hint")
                yield SideView(id="side")

    def show(self, key: str) -> None:
        """Draw the step as the journal has it. Answers given on this screen are kept while it lasts."""
        if key not in ("", self.key):
            return
        if (stack := self.stack) is None:
            self.say(GONE)
            return
        if self.trouble == GONE:
            self.trouble = ""
        sep = self.separation
        self._ask(stack, sep)
        self._draw_aside(stack, sep)
        self._draw_words(stack, sep)
        self._draw_time()
        self.query_one(SideView).look(self.house)
        self.refresh_bindings()

    def _ask(self, stack: Stack, sep: Separation | None) -> None:
        """Put the step's questions once: drawing again must not wipe answers."""
        if (step := steps.mark(sep)) == self.asked:
            return
        self.asked = step
        self.trouble = ""
        self.unweighed = False
        skims = sep is not None and sep.step is not None and sep.step.step is Step.SKIM
        self.set_class(skims, "-skimming")
        answers = self.query_one(Answers)
        answers.ask(self._questions(stack, sep) if sep and sep.step else ())
        answers.display = bool(answers.answers)
        answers.focus()

    def _questions(self, stack: Stack, sep: Separation) -> Sequence[Answer]:
        """The rows of the step, as they were left off where this screen was left in it."""
        left = self.house.left_off.pop((SEPARATION, f"{self.key}/{self.tray}"), None)
        if isinstance(left, steps.LeftOff) and left.mark == self.asked and left.answers:
            return left.answers
        return steps.questions(stack, sep, self.journal, others(self.house.shelf, self.key))

    def _draw_aside(self, stack: Stack, sep: Separation | None) -> None:
        ended = sep is not None and sep.ended_at is not None
        self.set_class(ended, "-ended")
        self.query_one("#steps", Static).update(step_list(sep, ended, self.house.ascii))
        drawing = self.query_one(StackDrawing)
        drawing.ascii = self.house.ascii
        drawing.picture = picture_of(stack, None)
        facts = [f"tray {self.tray}", f"{count(len(sep.passes), 'pass', 'passes')} done" if sep else ""]
        self.query_one(TitleRow).show(f"{clean(stack.setup.name, 40)}  separation", *facts)

    def _draw_words(self, stack: Stack, sep: Separation | None) -> None:
        shown = view(sep, self.house.now) if sep else None
        stacks = self.house.shelf.stacks()
        alone = sum(len(one.separations) for one in stacks) == 1
        # In a small window several separations take the room of the jobs.
        free = hands_free(stacks, self.house.now) if self.wide or alone else None
        said = wording.words(stack, self.tray, sep, shown, wide=self.wide, free=free)
        self.put("#place", said.place)
        self.put("#to-do", said.to_do)
        self.put("#reasons", "\n".join(said.lines))
        self.said_hint = said.hint
        self._draw_about()

    def on_answers_changed(self, event: Answers.Changed) -> None:
        """An answer may ask for other rows, and takes back what was said to be wrong."""
        if (stack := self.stack) is None:
            return
        answers = self.query_one(Answers)
        rows = steps.tidied(stack, self.separation, answers.answers)
        if rows != list(answers.answers):
            answers.rearrange(rows)
        self.trouble = ""
        self._draw_about()

    @on(LineList.Marked)
    def _draw_about(self) -> None:
        """What the marked answer is for: a caution's advice, or what to put there."""
        answers = self.query_one(Answers)
        about = self.put("#about", answers.marked_note(with_more=self.has_class("-wide")))
        about.display = bool(answers.answers)
        self.show_hint(self._hint(answers))

    def _hint(self, answers: Answers) -> str:
        """What the keys do on the marked row."""
        sep = self.separation
        shown = view(sep, self.house.now) if sep is not None and sep.ended_at is None else None
        if shown is None:
            return self.said_hint
        return wording.hint(shown, self._marked, ticked=answers.all_ticked)

    def show_hint(self, words: str) -> None:
        """Draw what the keys do, or what is wrong."""
        hint = self.put("#hint", self.trouble or words)
        hint.set_class(bool(self.trouble), "-trouble")

    def _draw_time(self) -> None:
        sep = self.separation
        shown = view(sep, self.house.now) if sep else None
        timed = shown is not None and shown.ends_at is not None
        self.query_one("#time").display = timed
        if shown is None or not timed:
            return
        digits = self.query_one(Digits)
        digits.update(countdown(shown.left or timedelta(0)))
        self.set_class(shown.over is not None, "-over")
        self.put("#time-words", self.time_words(shown))

    def is_about(self, rest: RunningRest) -> bool:
        return rest.bin == self.key and rest.tray == self.tray

    def tick(self) -> None:
        super().tick()
        self._draw_time()
        if (stack := self.stack) is not None:
            self._draw_words(stack, self.separation)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if not self.is_mounted:
            return True
        sep = self.separation
        step = sep.step if sep is not None and sep.ended_at is None else None
        if action == "end":
            return True if step is not None and step.ends_at is not None else None
        if action in ("back", "put_back"):
            return True if step is not None else None
        return True

    @property
    def marked_page(self) -> Page | None:
        """The page behind the marked caution while cautions are ticked, else of the step."""
        sep, answers = self.separation, self.query_one(Answers)
        if sep is None or sep.step is None:
            return Page.SEPARATING if sep is None else Page.CASTINGS
        marked = answers.answers[answers.marked].key if answers.answers else ""
        return page_for(marked) or PAGES.get(sep.step.step, Page.SEPARATING)
