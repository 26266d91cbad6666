"""What is asked of an outlook, off the screen's thread, and what comes back. The model is imported there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import cast

from textual.message import Message
from textual.worker import Worker, active_worker, get_current_worker

from trayturn.advice.outlook import Stopped
from trayturn.advice.outlook.making import outlook
from trayturn.advice.outlook.result import Outlook
from trayturn.advice.outlook.what_if import Compared, WhatIf, what_if
from trayturn.domain.profile import Profile


@dataclass(frozen=True, slots=True)
class Asked:
    """An outlook of that bin, from that day on, as planned or with something else."""

    profile: Profile
    now: datetime
    what: WhatIf | None

    def same(self, other: Asked | None) -> bool:
        """Whether the answer to the other one will do: of the very same journal, day and plan."""
        if other is None or self.profile is not other.profile:
            return False
        return (self.now.date(), self.what) == (other.now.date(), other.what)


@dataclass(frozen=True, slots=True)
class Answer:
    """The outlook as planned; with a what-if, both beside each other."""

    asked: Asked
    today: Outlook
    both: Compared | None = None

    @property
    def told(self) -> Outlook:
        """The outlook whose bands are drawn."""
        return self.both.then if self.both is not None else self.today


class Step(Message):
    """The work went on: so many steps of so many are done."""

    def __init__(self, asked: Asked, done: int, of: int) -> None:
        super().__init__()
        self.asked, self.done, self.of = asked, done, of


class Answered(Message):
    """The work is done."""

    def __init__(self, answer: Answer) -> None:
        super().__init__()
        self.answer = answer


class Broke(Message):
    """The work ended in an error that nobody foresaw."""

    def __init__(self, asked: Asked, error: Exception) -> None:
        super().__init__()
        self.asked, self.name = asked, type(error).__name__


def reckon(
    asked: Asked, draws: int, progress: Callable[[int, int], None], cancel: Callable[[], bool]
) -> Answer:
    """The answer. Raises `Stopped` when `cancel` says so. Advice keeps what it has reckoned before."""
    if asked.what is None:
        told = outlook(asked.profile, asked.now, draws=draws, progress=progress, cancel=cancel)
        return Answer(asked, told)
    both = what_if(asked.profile, asked.now, asked.what, draws=draws, progress=progress, cancel=cancel)
    return Answer(asked, both.today, both)


def work(asked: Asked, draws: int, tell: Callable[[Message], object]) -> None:
    """Reckon in a thread worker and tell how it goes. Stopped work tells nothing."""
    worker = get_current_worker()

    def step(done: int, of: int) -> None:
        if not worker.is_cancelled:
            tell(Step(asked, done, of))

    try:
        found: Message = Answered(reckon(asked, draws, step, lambda: worker.is_cancelled))
    except Stopped:
        return
    except Exception as error:
        found = Broke(asked, error)
    finally:
        # A thread that waits for more work remembers its last worker, and that would keep a closed screen.
        active_worker.set(cast("Worker[None]", None))
    if not worker.is_cancelled:
        tell(found)
