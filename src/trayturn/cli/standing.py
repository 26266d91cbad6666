"""Every bin of the home folder as it stands, for what is told across bins."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from trayturn.advice.due import Due, due_list
from trayturn.advice.next import Next, what_next
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_all, stack_asked
from trayturn.domain.problems import Finding, Severity
from trayturn.domain.stack import Stack
from trayturn.storage.reading import Loaded

NO_BINS = "There are no bins here yet. Make one with: trayturn new NAME, or look around with: trayturn demo"


@dataclass(frozen=True)
class Standing:
    """One bin of the home folder as it stands. A file that cannot be read has no stack and nothing due."""

    loaded: Loaded
    stack: Stack | None
    due: tuple[Due, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        return self.stack.findings if self.stack else ()

    @property
    def errors(self) -> list[str]:
        """What is wrong with the file, or cannot have happened in its journal."""
        impossible = [finding for finding in self.findings if finding.severity is Severity.ERROR]
        return [*map(str, self.loaded.problems), *map(str, impossible)]

    @property
    def ahead(self) -> list[str]:
        """That entries are dated ahead of the clock, which puts every age here in doubt."""
        return [str(finding) for finding in self.findings if finding.code == "dated-ahead"]


def stand(options: Namespace, now: datetime) -> list[Standing]:
    """Every bin as of the moment asked about, the most pressing first and the unreadable ones last."""
    found = [_standing(loaded, options, now) for loaded in open_all(options)]
    readable = sorted((one for one in found if one.due), key=lambda one: one.due[0].order)
    return readable + [one for one in found if not one.due]


def _standing(loaded: Loaded, options: Namespace, now: datetime) -> Standing:
    if loaded.profile is None or loaded.problems:
        return Standing(loaded, None, ())
    stack = stack_asked(options, loaded.profile, now)
    return Standing(loaded, stack, tuple(due_list(stack)))


def all_due(all_bins: Iterable[Standing]) -> list[Due]:
    """What is due in all bins as one list, in the order in which it presses."""
    return sorted((due for one in all_bins for due in one.due), key=lambda due: due.order)


def ranked(all_bins: Iterable[Standing]) -> list[Next]:
    """The readable bins, the one to feed first on top, with the scraps that are still there."""
    from trayturn.advice.contents import uneaten_kg
    from trayturn.advice.pantry import pantry_of

    stacks, left = [], {}
    for one in all_bins:
        if one.stack is not None and one.loaded.profile is not None:
            stacks.append(one.stack)
            left[one.stack.key] = uneaten_kg(one.stack, pantry_of(one.loaded.profile))
    return what_next(stacks, left)


def ranked_at_once(all_bins: Iterable[Standing]) -> list[Next]:
    """The same without the scraps, for what does not tell of them: to reckon them takes the whole table."""
    return what_next(one.stack for one in all_bins if one.stack is not None)


def status(all_bins: Sequence[Standing]) -> int:
    return int(any(one.errors for one in all_bins))


def print_trouble(one: Standing, page: Page, indent: int) -> None:
    """The first thing that is wrong, and where to read the rest; and a clock or date that is off."""
    for error in one.errors[:1]:
        page.line(f"{error} See it all with: trayturn verify {one.loaded.key}", indent, 2)
    page.lines(one.ahead, indent, 2)
