"""What a separation's screen says at each step: one sentence to do now, and where the keeper is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from trayturn.domain.entries import Step
from trayturn.domain.stack import Separation, StepTimes
from trayturn.domain.words import clock, span

ORDER = (
    Step.GET_READY,
    Step.LOOSEN,
    Step.REST,
    Step.SKIM,
    Step.DECIDE,
    Step.SETTLE,
    Step.CLEAN_UP,
)
TITLES = {
    Step.GET_READY: "Get ready",
    Step.LOOSEN: "Loosen",
    Step.REST: "Rest",
    Step.SKIM: "Skim",
    Step.DECIDE: "Again or stop",
    Step.SETTLE: "Settle",
    Step.CLEAN_UP: "Clean up",
}
TO_DO = {
    Step.GET_READY: "Put the tray on top of the stack, under a bright light.",
    Step.LOOSEN: "Loosen the whole tray gently by hand, down to the mesh.",
    Step.REST: "Hands off. The worms move down, away from light and air.",
    Step.SKIM: "Skim the top layer off, down to where worms show.",
    Step.DECIDE: "One more pass, or stop here?",
    Step.SETTLE: "Give everything its place, and weigh the castings.",
    Step.CLEAN_UP: "Rinse the tray, close the bin, wash your hands with soap.",
}
THEN = {
    Step.GET_READY: "loosen",
    Step.LOOSEN: "rest",
    Step.REST: "skim",
    Step.SKIM: "again or stop",
    Step.DECIDE: "loosen again, or settle",
    Step.SETTLE: "clean up",
    Step.CLEAN_UP: "the summary",
}
DONE_WORD = {
    Step.GET_READY: "Ready, start loosening",
    Step.LOOSEN: "Loosened, let it rest",
    Step.REST: "Rest is over, skim",
    Step.SKIM: "Skimmed",
    Step.SETTLE: "Settled",
    Step.CLEAN_UP: "All clean, finish",
}
TOOLS = ("gloves", "a tub for castings", "one for pieces", "a scale", "a bright light")


@dataclass(frozen=True, slots=True)
class StepView:
    """One step as shown. `left` is None for an untimed step; `over` is how long ago a timed one ended."""

    step: Step
    number: int
    of: int
    pass_number: int
    title: str
    to_do: str
    then: str
    done_word: str
    started_at: datetime
    ends_at: datetime | None = None
    left: timedelta | None = None
    over: timedelta | None = None
    clock_set_back: bool = False

    @property
    def name(self) -> str:
        """What a timed step is called while it runs."""
        return "loosening" if self.step is Step.LOOSEN else self.title.lower()

    @property
    def running(self) -> bool:
        """A timed step with time left."""
        return self.left is not None and self.over is None

    @property
    def place(self) -> str:
        """`Step 3 of 7, pass 2`: where the keeper is."""
        text = f"Step {self.number} of {self.of}"
        return f"{text}, pass {self.pass_number}" if self.step in (ORDER[1:5]) else text


def view(sep: Separation, now: datetime) -> StepView | None:
    """The step under way as it stands at `now`; None when no step runs."""
    if (step := sep.step) is None:
        return None
    left, over, set_back = _time_left(step, now)
    return StepView(
        step=step.step,
        number=ORDER.index(step.step) + 1,
        of=len(ORDER),
        pass_number=sep.pass_number,
        title=TITLES[step.step],
        to_do=TO_DO[step.step],
        then=THEN[step.step],
        done_word=DONE_WORD.get(step.step, ""),
        started_at=step.started_at,
        ends_at=step.ends_at,
        left=left,
        over=over,
        clock_set_back=set_back,
    )


def _time_left(step: StepTimes, now: datetime) -> tuple[timedelta | None, timedelta | None, bool]:
    """What is left, how long it is over, and whether the clock reads earlier than the step's own start.

    A clock set back would stretch a rest by hours. What is left never passes the length the step was given.
    """
    if step.ends_at is None:
        return None, None, False
    left = step.ends_at - now
    if now < step.started_at and step.planned is not None and left > step.planned:
        return step.planned, None, True
    if left <= timedelta(0):
        return timedelta(0), -left, False
    return left, None, False


def time_words(shown: StepView, now: datetime) -> str:
    """The timed step in words: `rest ends 10:52, then skim`; once over, how long ago."""
    name = shown.name
    if shown.ends_at is None:
        return f"since {clock(shown.started_at, now)}, then {shown.then}"
    if shown.clock_set_back:
        return f"the clock was set back since this {name} began; look at the worms, not the clock"
    if shown.over is not None:
        return f"{name} ended {clock(shown.ends_at, now)}, {span(shown.over)} ago; now {shown.then}"
    return f"{name} ends {clock(shown.ends_at, now)}, then {shown.then}"
