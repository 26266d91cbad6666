"""A meal with all that comes of it, made anew with every change."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.composing.draft import EATEN, Draft
from trayturn.advice.composing.ground import Ground
from trayturn.advice.composing.minding import Mind, minding
from trayturn.advice.composing.proposing import Proposal, propose
from trayturn.advice.composing.reasons import reason
from trayturn.advice.composing.report import Report, report
from trayturn.advice.composing.telling import Figure, figures


@dataclass(frozen=True, slots=True)
class Composed:
    """A draft on its ground: its figures, what is worth minding, and what is proposed for it."""

    draft: Draft
    ground: Ground
    report: Report
    figures: tuple[Figure, ...]
    minds: tuple[Mind, ...]
    proposal: Proposal

    @property
    def as_proposed(self) -> bool:
        """Whether all that is proposed is in the meal, and no more of it."""
        return _laid(self.draft) == _laid(self.proposal.draft)

    def why(self, code: str) -> list[str]:
        """The paragraphs behind a figure."""
        return reason(code, self.draft, self.ground, self.report)


def _laid(draft: Draft) -> dict[str, float]:
    """All but what is eaten, kg by line."""
    return {line.key: line.kg for line in draft if line.kg > 0 and line.part not in EATEN}


def compose(draft: Draft, ground: Ground) -> Composed:
    """All that comes of a draft. One that follows the proposal takes it on first."""
    proposal = propose(draft, ground)
    if draft.follows:
        draft = proposal.draft
    found = report(draft, ground)
    missed = proposal.missed if draft.follows else ()
    minds = (*minding(draft, ground, found), *missed)
    return Composed(draft, ground, found, figures(found, ground), minds, proposal)
