"""The finder's lists as rows: signs to tick by where to look, and causes by how likely they are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from textwrap import wrap

from textual.binding import Binding

from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.follow_up import open_follow_up
from trayturn.advice.trouble.parts import Group, Sign
from trayturn.advice.trouble.ranking import Rank, Ranked
from trayturn.advice.trouble.seen import Tick
from trayturn.advice.trouble.signs import SIGNS
from trayturn.advice.trouble.telling import gist
from trayturn.domain.words import day
from trayturn.tui.widgets.line_list import LineList, Row, Span

GROUPS = tuple(Group)
FIRST = {group: next(sign.code for sign in SIGNS if sign.group is group) for group in GROUPS}
"""The first sign of each group: the one that carries its name."""
GROUP_WIDTH = max(len(group) for group in GROUPS) + 3
SIGN_WIDTH = max(len(sign.words) for sign in SIGNS)
RANK_WIDTH = max(len(rank) for rank in Rank) + 2
COLUMN = 30
"""The letters of a line in the column of causes in a wide window, as the style sheet has it."""
LOOKS = {Rank.LIKELY: "act", Rank.POSSIBLE: "plain", Rank.UNLIKELY: "muted"}


class SignList(LineList):
    """The signs; a digit marks the first of a group."""

    BINDINGS = [
        Binding(str(number), f"group({number})", group.capitalize(), show=False)
        for number, group in enumerate(GROUPS, 1)
    ]

    def action_group(self, number: int) -> None:
        """Mark the first sign of that group, from 1."""
        self.marked = next(n for n, row in enumerate(self.rows) if row.key == FIRST[GROUPS[number - 1]])


def sign_rows(ticks: Mapping[str, Tick], *, ascii_only: bool, wide: bool) -> list[Row]:
    """One row a sign, with its box, and where it comes from if a check saw it."""
    return [_sign_row(sign, ticks.get(sign.code), ascii_only, wide) for sign in SIGNS]


def _sign_row(sign: Sign, tick: Tick | None, ascii_only: bool, wide: bool) -> Row:
    first = sign.code == FIRST[sign.group]
    group = f"{GROUPS.index(sign.group) + 1} {sign.group}" if first else ""
    done = ("[x]" if ascii_only else "[✓]") if tick is not None else "[ ]"
    said = tick.said if tick is not None else ""
    spans: tuple[Span, ...] = (
        (f"{group:<{GROUP_WIDTH}}", "muted"),
        (f"{done} ", "fine" if tick is not None else "act"),
        (f"{sign.words:<{SIGN_WIDTH + 1}}", "strong" if tick is not None else "plain"),
        ("check" if said and wide else said, "muted"),
    )
    return Row((spans,), sign.code)


def cause_rows(ranked: Iterable[Ranked], case: Case, *, wide: bool) -> list[Row]:
    """One row a cause; in a wide window its title is wrapped, and its rank stands under it."""
    return [_cause_row(one, case, wide) for one in ranked]


def _cause_row(one: Ranked, case: Case, wide: bool) -> Row:
    taken = open_follow_up(one.cause, case)
    known = f"taken, look again {day(taken.due, case.now)}" if taken is not None else gist(one)
    look = "muted" if one.rank is Rank.UNLIKELY else "strong"
    if wide:
        titles = [((line, look),) for line in wrap(one.cause.title, COLUMN)]
        told = [((f"  {line}", LOOKS[one.rank]),) for line in wrap(f"{one.rank}; {known}", COLUMN - 2)]
        return Row((*titles, *told), one.cause.code)
    rank: Span = (f"{one.rank:<{RANK_WIDTH}}", LOOKS[one.rank])
    return Row(((rank, (one.cause.title, look), (f"  {known}", "muted")),), one.cause.code)
