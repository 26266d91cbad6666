"""The keys of the separation screen: going on and back, more and less, and what is picked or typed."""

from __future__ import annotations

from datetime import timedelta

from textual import events, work

from trayturn.advice.cautions import CAUTIONS
from trayturn.advice.links import page_for
from trayturn.domain.entries import Step
from trayturn.procedure import separation as moves
from trayturn.procedure.splitting import CannotSplit
from trayturn.procedure.stepper import view
from trayturn.storage.errors import StorageError
from trayturn.tui.commands import SEPARATION
from trayturn.tui.moving import go_back, settle_away
from trayturn.tui.screens.separation import steps
from trayturn.tui.screens.separation.on_tray import GONE, OnTray
from trayturn.tui.screens.separation.picking import CHOOSE, PICKED, pick
from trayturn.tui.screens.separation.settling import Away
from trayturn.tui.ways import go
from trayturn.tui.widgets.answers import Answer, Answers, Pick, Tick
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.timeline.side_view import SideView

FIVE, ONE = timedelta(minutes=5), timedelta(minutes=1)


class Walk(OnTray):
    """What the keys do. Each looks first whether another window has gone on meanwhile."""

    def action_go_on(self) -> None:
        """The one obvious thing of this step."""
        if self._moved_on():
            return
        sep = self.separation
        if sep is None:
            self.write(moves.begin(self.tray, self.house.now))
            return
        if sep.ended_at is not None or sep.step is None:
            self.action_leave()
            return
        answers = self.query_one(Answers)
        if sep.step.step is Step.GET_READY and answers.tick_next():
            return
        shown = view(sep, self.house.now)
        if sep.step.step is Step.REST and shown is not None and shown.running:
            self.say(f"{self.time_words(shown)} Press e to end it now.")
            return
        self._finish_step()

    def action_filter_tray(self) -> None:
        """To the separation that needs hands next, in whatever bin."""
        there = self.query_one(SideView).elsewhere(self.key, self.tray)
        if there is None:
            self.say("No other tray is being separated.")
            return
        self.action_leave()
        go(self.house, "separation", *there)

    def _moved_on(self) -> bool:
        """Whether the key was meant for a step that is past: another window may have gone on meanwhile."""
        asked = self.asked
        self.house.look_again()
        if self.stack is None:
            self.say(GONE)
        elif steps.mark(self.separation) != asked:
            self.show("")
            self.say("Another window went on meanwhile. This is where it stands now.")
        return self.stack is None or self.asked != asked

    def _finish_step(self) -> None:
        stack, sep = self.stack, self.separation
        if stack is None or sep is None:
            return
        if steps.lacks_weight(sep, self.query_one(Answers).answers) and not self.unweighed:
            self.unweighed = True
            self.say("The castings are not weighed. Space once more goes on without.")
            return
        entries = steps.done(stack, sep, self.query_one(Answers).answers, self.house.now)
        if isinstance(entries, str):
            self.say(entries)
        elif isinstance(entries, Away):
            self._settle_away(entries)
        else:
            self.write(entries)

    def _settle_away(self, away: Away) -> None:
        """The worms go to another bin: both files are written, or neither."""
        try:
            settle_away(self.house.shelf, self.key, away.settling, away.worms, away.to)
        except (CannotSplit, StorageError) as trouble:
            self.say(str(trouble))
            return
        self.trouble = ""
        self.house.written.append(self.key)
        self.house.tell(away.to)
        self.house.tell(self.key)

    def action_end(self) -> None:
        if not self._moved_on():
            self._finish_step()

    def action_back(self) -> None:
        """One step back, in both bins where worms had moved; nothing that was written besides."""
        if self._moved_on():
            return
        sep = self.separation
        if sep is None:
            return
        if held := moves.why_not_back(self.journal, sep.tray):
            self.say(held)
            return
        try:
            other = go_back(self.house.shelf, self.key, sep.tray)
        except StorageError as trouble:
            self.house.warn(str(trouble))
            return
        self.trouble = ""
        self.house.written.append(self.key)
        self.house.tell(self.key)
        if other:
            self.house.tell(other.key)
            self.house.say(other.words)

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
                self.write(moves.restart_rest(sep, self.house.now))
                return
            length = FIVE if sep.step.step is Step.REST else ONE
            self.write(moves.move_deadline(sep, self.house.now, by * length))
        else:
            self.query_one(Answers).action_step(by)

    def action_enter(self) -> None:
        """Pick or type for the marked answer. It never ends a step that asks something."""
        if (marked := self._marked) is None:
            self.action_go_on()
        elif isinstance(marked, PICKED):
            self.picking = True
            self._pick(marked)
        elif isinstance(marked, Tick):
            self._tell_why(marked.key)
        else:
            self.say("Digits choose; Space goes on." if isinstance(marked, Pick) else CHOOSE)

    def _tell_why(self, code: str) -> None:
        """The whole of a caution: what to do, why, and the source."""
        caution = next(one for one in CAUTIONS if one.code == code)
        self.house.push_screen(ReasonScreen(caution.title, caution.story, page_for(code)))

    @property
    def _marked(self) -> Answer | None:
        answers = self.query_one(Answers)
        return answers.answers[answers.marked] if answers.answers else None

    @work
    async def _pick(self, row: Answer) -> None:
        try:
            if (stack := self.stack) is not None:
                await pick(self.house, stack, self.tray, self.query_one(Answers), row)
        finally:
            self.picking = False

    def on_key(self, event: events.Key) -> None:
        """Keys typed on while a sheet is still to open must not be taken for commands of this screen."""
        begins = event.key == "enter" and isinstance(self._marked, PICKED)
        if self.picking or begins:
            event.stop()
            event.prevent_default()
        if begins and not self.picking:
            self.action_enter()

    def action_leave(self) -> None:
        """The place is in the journal; what is answered of the step under way is kept for coming back."""
        rows = self.query_one(Answers).answers
        self.house.left_off[SEPARATION, f"{self.key}/{self.tray}"] = steps.LeftOff(self.asked, rows)
        super().action_leave()
