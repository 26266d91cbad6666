"""The keys of a turn day: on and back, left out or given up. Each looks first what another window did."""

from __future__ import annotations

from collections.abc import Sequence

from trayturn.advice.pantry import Pantry, pantry_of, shipped_pantry
from trayturn.advice.turn_day.tasks import DayView, needs_hands, view_day
from trayturn.domain.entries import DayStep, Entry
from trayturn.domain.profile import Profile
from trayturn.domain.stack import Stack
from trayturn.procedure import turn_day as moves
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.stack import acts
from trayturn.tui.screens.turn_day import asked, words
from trayturn.tui.screens.turn_day.going_back import one_move_back
from trayturn.tui.widgets.answers import Answers


class DayWalk(BinFrame):
    """What the keys do. `asked` tells which task is on the screen, `trouble` what is wrong with it."""

    def __init__(self, key: str) -> None:
        super().__init__(key)
        self.asked: asked.Mark | None = None
        self.trouble = ""

    def say(self, text: str) -> None:
        """Say what is wrong, where the keys are explained."""
        self.trouble = text
        self.show_hint("")

    def show_hint(self, text: str) -> None:
        """What the keys do now, or what is wrong."""
        raise NotImplementedError

    @property
    def view(self) -> DayView | None:
        """The day under way; None once it is over."""
        return view_day(self.stack) if self.stack is not None else None

    @property
    def _profile(self) -> Profile | None:
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded.profile if loaded is not None else None

    def _pantry(self) -> Pantry:
        profile = self._profile
        return self.house.shelf.kept(profile, pantry_of) if profile is not None else shipped_pantry()

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
        if step is DayStep.LOOK and asked.stinks(answers) and self.trouble != words.AMMONIA:
            self.say(words.AMMONIA)
            return
        now = self.house.now
        if step is DayStep.LOOK:
            self._save(moves.looked(stack, asked.look_of(answers.answers), now))
        else:
            self._save(moves.done(stack, now))

    def _separate(self, stack: Stack, tray: str | None) -> None:
        """To the separation of this day that needs hands first."""
        chosen = needs_hands(stack, stack.turn_day) if stack.turn_day is not None else None
        acts.separate(self.house, self.key, chosen.tray if chosen is not None else tray)

    def _moved_on(self) -> bool:
        """Whether the key was meant for a task that is past: another window may have gone on meanwhile."""
        before = self.asked
        self.house.look_again()
        if self.stack is None:
            self.say(words.GONE)
        elif asked.mark(self.stack, self.view) != before:
            self.show("")
            self.say(words.ELSEWHERE)
        return self.stack is None or self.asked != before

    def action_end(self) -> None:
        """Leave this task undone and go on."""
        view = self.view
        if self._moved_on() or view is None or (stack := self.stack) is None:
            return
        if held := moves.why_not_left(stack):
            self.say(held)
            return
        reason = asked.reason_of(self.query_one(Answers).answers)
        self._save(moves.left_undone(stack, self.house.now, reason))

    def action_back(self) -> None:
        """Take back what the last move of this day wrote, and nothing that was written besides."""
        view = self.view
        if self._moved_on() or view is None:
            return
        self.trouble = ""
        if said := one_move_back(self.house, self.key, view.day):
            self.say(said)

    def action_put_back(self) -> None:
        """Give the day up as it stands."""
        view = self.view
        if self._moved_on() or view is None or (stack := self.stack) is None:
            return
        if self.house.save(self.key, moves.leave(stack, self.house.now)):
            self.action_leave()
            self.house.say(words.left(view))

    def action_more(self) -> None:
        self.query_one(Answers).action_step(1)

    def action_less(self) -> None:
        self.query_one(Answers).action_step(-1)

    def _save(self, entries: Sequence[Entry]) -> None:
        self.trouble = ""
        if entries:
            self.house.save(self.key, entries)
