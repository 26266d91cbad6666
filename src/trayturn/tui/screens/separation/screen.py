"""The separation screen: what to do now, how long is left, and one key to go on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from functools import partial

from textual import on, work
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Digits, Static

from trayturn.advice.links import page_for
from trayturn.advice.pages import Page
from trayturn.domain.entries import Entry, Step
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.words import clean, count, countdown
from trayturn.procedure import separation as moves
from trayturn.procedure.rests import RunningRest
from trayturn.procedure.stepper import StepView, time_words, view
from trayturn.tui.commands import SEPARATION, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.separation import steps, typed, wording
from trayturn.tui.screens.separation.step_list import step_list
from trayturn.tui.widgets.answers import Answers, Mass, Words
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.stack_drawing import StackDrawing, picture_of
from trayturn.tui.widgets.title_row import TitleRow
from trayturn.tui.widgets.type_in import TypeIn

PAGES = {Step.GET_READY: Page.CAUTIONS, Step.SETTLE: Page.HATCHING, Step.CLEAN_UP: Page.CASTINGS}
FIVE, ONE = timedelta(minutes=5), timedelta(minutes=1)
GONE = "This bin's file cannot be read any more. Put it back or mend it; this goes on from there."


class SeparationScreen(BinFrame):
    """One tray, from getting ready to the summary. Leaving keeps the place: it is in the journal."""

    PLACE = SEPARATION
    BINDINGS = bindings(SEPARATION)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str, tray: str) -> None:
        super().__init__(key)
        self.tray = tray
        self._asked: steps.Mark | None = None
        self._trouble = ""
        self._unweighed = False

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

    @property
    def _journal(self) -> Sequence[Entry]:
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded.profile.journal if loaded is not None and loaded.profile is not None else ()

    @property
    def separation(self) -> Separation | None:
        """The tray's separation: the one under way, or the one this screen has just seen end."""
        stack = self.stack
        if stack is None:
            return None
        past = [s for s in stack.past_separations if s.tray == self.tray and self._seen(s)]
        return stack.separation(self.tray) or (past[-1] if past else None)

    def _seen(self, sep: Separation) -> bool:
        return self._asked is not None and self._asked[0] == sep.begun_at

    def show(self, key: str) -> None:
        """Draw the step as the journal has it. Answers given on this screen are kept while it lasts."""
        if key not in ("", self.key):
            return
        if (stack := self.stack) is None:
            self._say(GONE)
            return
        if self._trouble == GONE:
            self._trouble = ""
        sep = self.separation
        self._ask(stack, sep)
        self._draw_aside(stack, sep)
        self._draw_words(stack, sep)
        self._draw_time()
        self.refresh_bindings()

    def _ask(self, stack: Stack, sep: Separation | None) -> None:
        """Put the step's questions once: drawing again must not wipe answers."""
        if (step := steps.mark(sep)) == self._asked:
            return
        self._asked = step
        self._trouble = ""
        self._unweighed = False
        answers = self.query_one(Answers)
        answers.ask(steps.questions(stack, sep, self._journal) if sep and sep.step else [])
        answers.display = bool(answers.answers)
        answers.focus()

    def _draw_aside(self, stack: Stack, sep: Separation | None) -> None:
        ended = sep is not None and sep.ended_at is not None
        self.query_one("#steps", Static).update(step_list(sep, ended, self.house.ascii))
        drawing = self.query_one(StackDrawing)
        drawing.ascii = self.house.ascii
        drawing.picture = picture_of(stack, None)
        facts = [f"tray {self.tray}", f"{count(len(sep.passes), 'pass', 'passes')} done" if sep else ""]
        self.query_one(TitleRow).show(f"{clean(stack.setup.name, 40)}  separation", *facts)

    def _draw_words(self, stack: Stack, sep: Separation | None) -> None:
        shown = view(sep, self.house.now) if sep else None
        said = wording.words(stack, self.tray, sep, shown)
        self.put("#place", said.place)
        self.put("#to-do", said.to_do)
        self.put("#reasons", "\n".join(said.lines))
        self._hint(said.hint)
        self._draw_about()

    @on(LineList.Marked)
    def _draw_about(self) -> None:
        """What the marked answer is for: a caution's advice, or what to put there."""
        answers = self.query_one(Answers)
        about = self.put("#about", answers.marked_note(with_more=self.has_class("-wide")))
        about.display = bool(answers.answers)

    def _hint(self, words: str) -> None:
        hint = self.put("#hint", self._trouble or words)
        hint.set_class(bool(self._trouble), "-trouble")

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
        self.put("#time-words", self._time_words(shown))

    def _time_words(self, shown: StepView) -> str:
        text = time_words(shown, self.house.now)
        return text[:1].upper() + text[1:] + "."

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

    def action_go_on(self) -> None:
        """The one obvious thing of this step."""
        if self._moved_on():
            return
        sep = self.separation
        if sep is None:
            self._save(moves.begin(self.tray, self.house.now))
            return
        if sep.ended_at is not None or sep.step is None:
            self.action_leave()
            return
        answers = self.query_one(Answers)
        if sep.step.step is Step.GET_READY and answers.tick_next():
            return
        shown = view(sep, self.house.now)
        if sep.step.step is Step.REST and shown is not None and shown.running:
            self._say(f"{self._time_words(shown)} Press e to end it now.")
            return
        self._finish_step()

    def _moved_on(self) -> bool:
        """Whether the key was meant for a step that is past: another window may have gone on meanwhile."""
        asked = self._asked
        self.house.look_again()
        if self.stack is None:
            self._say(GONE)
        elif steps.mark(self.separation) != asked:
            self.show("")
            self._say("Another window went on meanwhile. This is where it stands now.")
        return self.stack is None or self._asked != asked

    def _finish_step(self) -> None:
        stack, sep = self.stack, self.separation
        if stack is None or sep is None:
            return
        if steps.lacks_weight(sep, self.query_one(Answers).answers) and not self._unweighed:
            self._unweighed = True
            self._say("The castings are not weighed. Space once more goes on without.")
            return
        entries = steps.done(stack, sep, self.query_one(Answers).answers, self.house.now)
        if isinstance(entries, str):
            self._say(entries)
        else:
            self._save(entries)

    def _say(self, words: str) -> None:
        self._trouble = words
        self._hint("")

    def _save(self, entries: Sequence[Entry]) -> None:
        self._trouble = ""
        self.house.save(self.key, entries)

    def action_end(self) -> None:
        if not self._moved_on():
            self._finish_step()

    def action_back(self) -> None:
        if self._moved_on():
            return
        if (sep := self.separation) is not None:
            self._save(moves.back(self._journal, sep.tray, self.house.now))

    def action_put_back(self) -> None:
        if self._moved_on():
            return
        sep = self.separation
        if sep is not None and self.house.save(self.key, moves.put_back(sep, self.house.now)):
            self.action_leave()
            self.house.say(f"Tray {self.tray} is back at its level. u takes this back.")

    def action_more(self) -> None:
        self._step(1)

    def action_less(self) -> None:
        self._step(-1)

    def _step(self, by: int) -> None:
        """More or less: of the time while a timed step runs, of the marked answer otherwise."""
        if self._moved_on():
            return
        sep = self.separation
        if sep is not None and sep.step is not None and sep.step.ends_at is not None:
            shown = view(sep, self.house.now)
            if shown is not None and shown.clock_set_back:
                self._save(moves.restart_rest(sep, self.house.now))
                return
            length = FIVE if sep.step.step is Step.REST else ONE
            self._save(moves.move_deadline(sep, self.house.now, by * length))
        else:
            self.query_one(Answers).action_step(by)

    def on_answers_changed(self, event: Answers.Changed) -> None:
        if self._trouble and (stack := self.stack) is not None:
            self._trouble = ""
            self._draw_words(stack, self.separation)

    def action_enter(self) -> None:
        """Type where the marked answer takes words or a mass. It never ends a step that asks something."""
        answers = self.query_one(Answers)
        marked = answers.answers[answers.marked] if answers.answers else None
        if isinstance(marked, Mass | Words):
            self._type_in(marked)
        elif marked is None:
            self.action_go_on()
        else:
            self._say("Space goes on.")

    @work
    async def _type_in(self, row: Mass | Words) -> None:
        start = row.text if isinstance(row, Words) else ""
        sheet = TypeIn(row.label, start, typed.example(row), partial(typed.trouble, row))
        text = await self.app.push_screen_wait(sheet)
        if text is not None:
            self.query_one(Answers).put(typed.answered(row, text))
