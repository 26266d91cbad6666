"""Who plays which part in a turn: the trays that leave, stay, finish, are fed, and come in."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain, count
from string import ascii_uppercase

from trayturn.domain.entries import Stage
from trayturn.domain.setup import Pattern
from trayturn.domain.stack import Stack, TrayState


@dataclass(frozen=True, slots=True)
class Roles:
    """The parts of one turn. `spent` has had its feeding; `fed` is fed from then on; `fresh` comes in."""

    staying: tuple[TrayState, ...]
    leaving: tuple[TrayState, ...]
    spent: TrayState | None
    fed: str | None
    fresh: str | None

    @property
    def comes_back(self) -> bool:
        """The leaving tray is itself the fresh one, once it is emptied."""
        return self.fresh in [tray.id for tray in self.leaving]


def roles_of(stack: Stack, *, bring: bool = True) -> Roles:
    """The parts that the trays of this stack play in its next turn, by the bin's pattern.

    Without `bring` no fresh tray comes in, though there may be a place for one.
    """
    standing = tuple(t for t in stack.trays if t.stage is not Stage.SEPARATING)
    leaving = stack.in_stage(Stage.SEPARATING) or _leaving(stack, standing)
    staying = tuple(t for t in standing if t not in leaving)
    enters = bring and _new_on_top(stack) is None and len(staying) < size(stack)
    fresh = free_tray(stack, leaving[0].id if leaving else None) if enters else None
    return Roles(staying, leaving, spent_tray(stack), _fed(stack, fresh), fresh)


def spent_tray(stack: Stack) -> TrayState | None:
    """The feeding tray that finishes at the next turn: the one in its feeding stage longest."""
    return min(stack.in_stage(Stage.FEEDING), key=lambda t: (t.stage_since, t.level), default=None)


def oldest_bedding(stack: Stack) -> TrayState | None:
    """The bedding tray that has stood on the stack longest."""
    return min(stack.in_stage(Stage.BEDDING), key=lambda t: (t.started_at, t.level), default=None)


def waiting_on_top(stack: Stack) -> TrayState | None:
    """A finishing tray above the one being fed: an earlier turn put it there to be separated."""
    standing = [t for t in stack.trays if t.stage is not Stage.SEPARATING]
    above_fed = bool(stack.in_stage(Stage.FEEDING)) and standing[-1].stage is Stage.FINISHING
    return standing[-1] if above_fed else None


def size(stack: Stack) -> int:
    """How many trays the stack is to have: as many as the set."""
    return max(stack.setup.tray_count, len(stack.listed_trays))


def room(stack: Stack) -> int:
    """How many more trays the stack takes, counting those that are being separated."""
    return max(0, size(stack) - len(stack.trays))


def free_tray(stack: Stack, leaving: str | None = None) -> str | None:
    """The tray that can come in: a spare one, a new name if the set has more, or the leaving one, emptied."""
    on_stack = {tray.id for tray in stack.trays}
    used = [tray.id for tray in stack.off_stack]
    spare = [tray_id for tray_id in stack.listed_trays or used if tray_id not in on_stack]
    if spare:
        return spare[0]
    known = on_stack | set(used)
    if not stack.listed_trays and len(known) < stack.setup.tray_count:
        return _next_name(known)
    return leaving


def _next_name(known: set[str]) -> str:
    """The next letter, or the next number for a keeper who numbers trays."""
    numbered = bool(known) and all(name.isdecimal() for name in known)
    letters = chain(ascii_uppercase, (f"T{n}" for n in count(27)))
    return next(name for name in (map(str, count(1)) if numbered else letters) if name not in known)


def _leaving(stack: Stack, standing: tuple[TrayState, ...]) -> tuple[TrayState, ...]:
    """The finishing tray that leaves, if one does.

    Bedding below: the one that has finished longest. Straight up: one that waits on top since an earlier
    turn, or else the lowest, and only when the stack would grow too high.
    """
    finishing = stack.in_stage(Stage.FINISHING)
    if not finishing:
        return ()
    if stack.setup.pattern is Pattern.BEDDING_BELOW:
        return (min(finishing, key=lambda t: (t.stage_since, t.level)),)
    if len(standing) + (_new_on_top(stack) is None) <= size(stack):
        return ()
    return (waiting_on_top(stack) or finishing[0],)


def _new_on_top(stack: Stack) -> TrayState | None:
    """Straight up, a bedding tray set above the fed ones ahead of the turn: it is the new tray."""
    upper = [t for t in stack.trays if t.stage in (Stage.BEDDING, Stage.FEEDING)]
    if stack.setup.pattern is Pattern.BEDDING_BELOW or not upper or upper[-1].stage is Stage.FEEDING:
        return None
    return upper[-1]


def _fed(stack: Stack, fresh: str | None) -> str | None:
    """The tray fed next: bedding below, the oldest bedding first; straight up, the new tray first."""
    oldest = oldest_bedding(stack)
    bedding = oldest.id if oldest else None
    if stack.setup.pattern is Pattern.BEDDING_BELOW:
        return bedding or fresh
    new = _new_on_top(stack)
    return new.id if new else fresh or bedding
