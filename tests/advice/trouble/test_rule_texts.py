"""The rules as data: each has its source, says so where only the trade does, and points at a page."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from trayturn.advice.cautions import CAUTIONS, cautions_for
from trayturn.advice.pages import Page
from trayturn.advice.resting import NO_FOOD
from trayturn.advice.trouble import sources
from trayturn.advice.trouble.causes import CAUSES, EVIDENCE
from trayturn.advice.trouble.parts import NAMELESS, Cause, Sign, Source, Sure
from trayturn.advice.trouble.signs import OF_PEST, SIGN, SIGNS
from trayturn.domain.entries import FollowUpSet, Pest

SOURCES = [value for value in vars(sources).values() if isinstance(value, Source)]
CODE = re.compile(r"[a-z][a-z-]*")


def _named(cause: Cause) -> Iterator[Source]:
    yield from (speaks.source for speaks in cause.speaks)
    yield from (ask.evidence.source for ask in cause.asks)
    yield from (remedy.source for remedy in cause.remedies)
    yield cause.expect.source


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.text)
def test_a_source_says_who_and_what_kind(source: Source) -> None:
    assert source.text.strip()
    assert str(source.sure) in source.told
    assert (source.text in source.told) is not (source.sure in NAMELESS)
    assert source.told.isascii()


def test_trade_only_lore_says_so() -> None:
    assert (sources.TRADE.told, sources.PRACTICE.told) == ("trade only", "common practice")
    assert "no research and no public advice was found" in NAMELESS[Sure.TRADE]
    assert all("no " in meaning for meaning in NAMELESS.values())
    assert sources.OREGON.told == "Oregon Metro, worm bin trouble-shooting; public advice"


def test_protein_poisoning_rests_on_the_trade_alone_and_says_so() -> None:
    protein = next(cause for cause in CAUSES if cause.code == "protein")
    assert "No research or public advice was found" in protein.why
    assert {speaks.source for speaks in protein.speaks} == {sources.TRADE}
    dusting = [remedy for remedy in protein.remedies if remedy.source is sources.RECYCLEWORKS]
    assert [remedy.source.sure for remedy in protein.remedies if remedy not in dusting] == [Sure.TRADE] * 3


def test_every_source_is_named_by_some_rule() -> None:
    named = {source for cause in CAUSES for source in _named(cause)}
    named |= {sign.source for sign in SIGNS if sign.source is not None}
    assert [source.text for source in SOURCES if source not in named] == []


@pytest.mark.parametrize("cause", CAUSES, ids=lambda cause: cause.code)
def test_a_cause_is_whole(cause: Cause) -> None:
    assert CODE.fullmatch(cause.code)
    assert all(source.text for source in _named(cause))
    assert isinstance(cause.page, Page)
    assert cause.remedies
    assert any(speaks.points > 0 for speaks in cause.speaks)
    assert {speaks.sign for speaks in cause.speaks} <= set(SIGN)
    assert len({speaks.sign for speaks in cause.speaks}) == len(cause.speaks)
    assert {sign for remedy in cause.remedies for sign in remedy.signs} <= set(SIGN)
    assert {"gloves", "hands"} <= set(cause.cautions) <= {c.code for c in cautions_for("putting_right")}
    assert cause.expect.days > 0


@pytest.mark.parametrize("cause", CAUSES, ids=lambda cause: cause.code)
def test_its_words_are_plain_sentences(cause: Cause) -> None:
    said = [cause.why, cause.worry, cause.expect.words, *(remedy.do for remedy in cause.remedies)]
    assert all(text.isascii() and text.endswith(".") and text[0].isupper() for text in said)
    assert re.match(r"(see|ask|read|press) .*\w$", cause.look)
    assert not cause.title.endswith(".")
    assert len(cause.title) <= 40
    FollowUpSet.model_validate(
        {"at": "2026-03-01T10:00:00+01:00", "code": cause.code, "what": f"Tray Twelve-chars: {cause.look}."}
        | {"due": "2026-03-08T10:00:00+01:00"},
        strict=False,
    )


def test_codes_are_told_apart_and_every_animal_of_a_check_is_a_sign() -> None:
    assert len({cause.code for cause in CAUSES}) == len(CAUSES)
    assert len(SIGN) == len(SIGNS)
    assert set(OF_PEST) == set(Pest)
    assert set(OF_PEST.values()) <= set(SIGN)
    assert all(evidence.code == code for code, evidence in EVIDENCE.items())


@pytest.mark.parametrize("one", SIGNS, ids=lambda sign: sign.code)
def test_a_sign_fits_its_row_and_its_note_has_a_source(one: Sign) -> None:
    assert CODE.fullmatch(one.code)
    assert len(one.words) <= 30
    assert one.sentence.endswith(".")
    assert bool(one.note) == (one.source is not None)
    assert one.reading in ("", *EVIDENCE)


def test_what_stops_feeding_is_what_feeding_heeds() -> None:
    assert {cause.code for cause in CAUSES if cause.stops_feeding} == NO_FOOD


def test_lime_that_kills_worms_is_warned_of_wherever_chalk_is_named() -> None:
    for cause in CAUSES:
        for remedy in cause.remedies:
            if "calcium carbonate" in remedy.do:
                assert "Never slaked, caustic or hydrated lime" in remedy.do
                assert "No amount is published" in remedy.do
                assert "grit_dust" in cause.cautions


def test_dangers_name_their_cautions() -> None:
    by_code = {cause.code: cause for cause in CAUSES}
    assert "ammonia" in by_code["much-nitrogen"].cautions
    assert {"rodents", "flatworms"} <= set(by_code["from-outside"].cautions)
    assert {c.code for c in cautions_for("putting_right")} <= {c.code for c in CAUTIONS}
