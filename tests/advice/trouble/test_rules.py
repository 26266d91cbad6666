"""Every rule in both directions: for each cause a bin that has it and a bin that has not, and each of its
signs ticked in both."""

from __future__ import annotations

import pytest

from tests.advice.trouble.cases import FED, a_case, checked, ranked, the, ticks
from tests.advice.trouble.test_evidence import BOTH
from tests.builders import entry, fed, started, turned
from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.causes import CAUSE, CAUSES
from trayturn.advice.trouble.parts import Asks, Cause, Says, Sign, Speaks
from trayturn.advice.trouble.ranking import Rank, answers, rank
from trayturn.advice.trouble.signs import SIGN, SIGNS
from trayturn.domain.entries import Entry

Bin = tuple[Entry, ...]
CARD = {"shredded cardboard": 0.5}
PLAIN = (FED, fed("A", 38, {"cabbage": 0.1}, bedding_kg=CARD, grit_kg=0.02))
"""A bin fed little, with bedding and grit."""
MUCH = tuple(fed("A", day, {"cabbage": 2.0}) for day in (14, 19, 24, 29, 34, 39))


def _worms(kg: float) -> Entry:
    made: Entry = entry("worms_added", 0, worms_kg=kg)
    return made


HAS_IT_AND_HAS_NOT: dict[str, tuple[Bin, Bin]] = {
    "too-wet": (
        (FED, fed("A", 35, {"watermelon": 3.0}), checked(feel="wet", sump_l=3)),
        (*PLAIN, checked(moisture_pct=72, sump_l=0)),
    ),
    "little-air": ((FED, checked(feel="wet")), (*PLAIN, checked(moisture_pct=72))),
    "too-dry": ((FED, checked(feel="dry")), (FED, checked(moisture_pct=76))),
    "bedding-out": ((FED, fed("A", 35, {"watermelon": 3.0})), PLAIN),
    "overfed": ((FED, _worms(0.2), *MUCH), (*PLAIN, _worms(1.0))),
    "exposed-food": ((FED, fed("A", 38)), PLAIN),
    "rich-food": ((FED, fed("A", 38, {"meat": 0.2})), PLAIN),
    "big-pieces": ((FED, fed("A", 38, {"corn cob": 0.5})), PLAIN),
    "dry-grain": ((FED, fed("A", 38, {"oats": 0.2})), PLAIN),
    "too-acid": (
        (FED, fed("A", 38, {"orange peel": 0.5, "rice": 0.5}), checked(ph=4.6)),
        (*PLAIN, checked(ph=7)),
    ),
    "much-nitrogen": ((FED, _worms(0.2), *(fed("A", day, {"spinach": 2.0}) for day in (30, 38))), PLAIN),
    "salty": ((FED, fed("A", 38, {"bread": 0.5})), PLAIN),
    "citrus": ((FED, fed("A", 38, {"orange peel": 0.5})), PLAIN),
    "protein": ((FED, fed("A", 38, {"cheese": 0.5})), PLAIN),
    "onion": ((FED, fed("A", 38, {"garlic": 0.5})), PLAIN),
    "too-cold": ((FED, checked(temperature_c=7)), (FED, checked(temperature_c=19))),
    "too-hot": (
        (FED, fed("A", 38, {"oats": 8.0}), checked(temperature_c=33)),
        (*PLAIN, checked(temperature_c=19)),
    ),
    "few-worms": ((FED, _worms(0.05), *MUCH), (FED, _worms(0.4), fed("A", 38, {"cabbage": 0.1}))),
    "crowded": ((FED, _worms(2.0), fed("A", 38, {"cabbage": 0.1})), (FED, _worms(0.2), *MUCH)),
    "moved-on": ((FED, fed("A", 5), turned("A", 20, A="finishing")), (FED, fed("A", 38))),
    "new-bin": ((started("A", 35, stage="feeding"),), (started("A", -60, stage="feeding"),)),
    "from-outside": ((), ()),
}
"""For each cause: a journal that tells of it, and one that tells against it. Of what came in from outside no
journal can tell."""
SPEAKING = [
    pytest.param(cause, speaks, id=f"{speaks.sign} for {cause.code}")
    for cause in CAUSES
    for speaks in cause.speaks
    if not speaks.against
]
SPEAKING_AGAINST = [
    pytest.param(cause, speaks, id=f"{speaks.sign} against {cause.code}")
    for cause in CAUSES
    for speaks in cause.speaks
    if speaks.against
]


def _bin(cause: Cause, *, has_it: bool) -> Case:
    tray = "A" if cause.code == "moved-on" else None
    return a_case(*HAS_IT_AND_HAS_NOT[cause.code][0 if has_it else 1], tray=tray)


def test_every_cause_has_its_two_bins() -> None:
    assert set(HAS_IT_AND_HAS_NOT) == set(CAUSE)


@pytest.mark.parametrize("cause", CAUSES, ids=lambda cause: cause.code)
def test_the_journal_of_a_bin_that_has_it_speaks_for_it_only(cause: Cause) -> None:
    """And that of one that has not, against it only: else the two bins would be no test of the rules."""
    sign = next(s.sign for s in cause.speaks if not s.against and not SIGN[s.sign].reading)
    for has_it, wanted in ((True, Says.FOR), (False, Says.AGAINST)):
        one = the(cause.code, ranked(_bin(cause, has_it=has_it), sign))
        assert one is not None
        asked = [reason for reason in one.reasons if reason.check is not None]
        said = {reason.says for reason in asked if reason.points}
        assert said == ({wanted} if cause.asks else set())


@pytest.mark.parametrize(("cause", "speaks"), SPEAKING)
def test_a_sign_speaks_for_a_cause_in_a_bin_that_has_it(cause: Cause, speaks: Speaks) -> None:
    one = the(cause.code, ranked(_bin(cause, has_it=True), speaks.sign))
    assert one is not None
    assert one.rank is not Rank.UNLIKELY
    assert (speaks.source, speaks.points) in {(reason.source, reason.points) for reason in one.of(Says.FOR)}


@pytest.mark.parametrize(("cause", "speaks"), SPEAKING)
def test_the_same_sign_is_overruled_in_a_bin_that_has_not(cause: Cause, speaks: Speaks) -> None:
    """But for a sign that is the reading itself: what is seen today counts more than what was read before."""
    has, has_not = (the(cause.code, ranked(_bin(cause, has_it=h), speaks.sign)) for h in (True, False))
    assert has is not None
    assert has_not is not None
    asked = {ask.evidence.code for ask in cause.asks}
    if SIGN[speaks.sign].reading in asked:
        assert any("What you see now overrules it" in reason.words for reason in has_not.of(Says.NEITHER))
    elif asked:
        assert has_not.rank is not Rank.LIKELY
    assert has_not.points < has.points or not asked
    assert the(cause.code, ranked(_bin(cause, has_it=True))) is None, "named without its sign"


@pytest.mark.parametrize(("cause", "speaks"), SPEAKING_AGAINST)
def test_a_sign_against_lowers_a_cause_and_names_none(cause: Cause, speaks: Speaks) -> None:
    case = a_case(FED)
    sign = next(other.sign for other in cause.speaks if not other.against)
    alone, both = (the(cause.code, ranked(case, *signs)) for signs in ((sign,), (sign, speaks.sign)))
    assert alone is not None
    assert both is not None
    assert both.points == alone.points - speaks.weight
    assert the(cause.code, ranked(case, speaks.sign)) is None


@pytest.mark.parametrize("sign", SIGNS, ids=lambda sign: sign.code)
def test_every_sign_leads_somewhere_and_nowhere_else(sign: Sign) -> None:
    named = {one.cause.code for one in ranked(a_case(FED), sign.code)}
    assert named == {c.code for c in CAUSES if any(s.sign == sign.code and not s.against for s in c.speaks)}
    assert named


@pytest.mark.parametrize("cause", [c for c in CAUSES if c.asks], ids=lambda cause: cause.code)
def test_with_its_strongest_sign_and_its_journal_a_cause_comes_first(cause: Cause) -> None:
    strongest = max((s for s in cause.speaks if not s.against), key=lambda s: s.weight)
    ranking = ranked(_bin(cause, has_it=True), strongest.sign)
    best = [one.cause.code for one in ranking if one.points == ranking[0].points]
    assert cause.code in best


ASKING = [
    pytest.param(cause, ask, id=f"{ask.evidence.code} for {cause.code}")
    for cause in CAUSES
    for ask in cause.asks
]
ONE_WAY = {("much-nitrogen", "fed-over")}
"""That little was fed does not clear a bin that smells of ammonia: it may have been rich."""


@pytest.mark.parametrize(("cause", "ask"), ASKING)
def test_an_answer_of_the_journal_moves_its_cause_both_ways(cause: Cause, ask: Asks) -> None:
    sign = next(s.sign for s in cause.speaks if not s.against and not SIGN[s.sign].reading)
    nothing = answers(a_case())

    def points(is_for: bool | None) -> int:
        code = ask.evidence.code
        found = {
            **nothing,
            **({} if is_for is None else {code: ask.evidence.find(BOTH[code].case(is_for=is_for))}),
        }
        one = the(cause.code, rank(ticks(sign), found))
        assert one is not None
        return one.points

    assert points(True) - points(None) == ask.if_for > 0
    assert points(None) - points(False) == ask.if_against
    assert (ask.if_against > 0) is ((cause.code, ask.evidence.code) not in ONE_WAY)
