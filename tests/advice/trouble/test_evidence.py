"""Every question to the journal: a bin where it speaks for, one where it speaks against, and an empty one."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import pytest

from tests.advice.trouble.cases import FED, a_case, checked
from tests.builders import entry, fed, started, turned
from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.causes import EVIDENCE
from trayturn.advice.trouble.parts import Says
from trayturn.domain.entries import Entry


@dataclass(frozen=True)
class Both:
    """Two bins that differ in what is asked, with a piece of what each is told."""

    speaks_for: tuple[Entry, ...]
    says: str
    speaks_against: tuple[Entry, ...]
    denies: str
    tray: str | None = None
    setup: dict[str, Any] = field(default_factory=dict)

    def case(self, *, is_for: bool) -> Case:
        return a_case(*(self.speaks_for if is_for else self.speaks_against), tray=self.tray, **self.setup)


def _fed(items: dict[str, float], day: float = 35, **fields: Any) -> tuple[Entry, ...]:
    return FED, fed("A", day, items, **fields)


def _worms(kg: float) -> Entry:
    made: Entry = entry("worms_added", 0, worms_kg=kg)
    return made


CARD = {"shredded cardboard": 0.5}
CABBAGE = {"cabbage": 0.5}
OFTEN = tuple(fed("A", day, {"cabbage": 2.0}) for day in (14, 19, 24, 29, 34))
BOTH: dict[str, Both] = {
    "reads-wet": Both((FED, checked(feel="wet")), "about 90 %", (FED, checked(moisture_pct=75)), "75 %"),
    "reads-dry": Both((FED, checked(feel="dry")), "about 50 %", (FED, checked(moisture_pct=72)), "72 %"),
    "sump-fills": Both((FED, checked(sump_l=3)), "held 3 l of its 5 l", (FED, checked(sump_l=0)), "nothing"),
    "reads-cold": Both((FED, checked(temperature_c=8)), "8 °C", (FED, checked(temperature_c=18)), "18 °C"),
    "reads-hot": Both((FED, checked(temperature_c=31)), "31 °C", (FED, checked(temperature_c=20)), "20 °C"),
    "reads-acid": Both((FED, checked(ph=4.8)), "pH was 4.8", (FED, checked(ph=7)), "pH was 7"),
    "much-citrus": Both(_fed({"orange peel": 0.2, **CABBAGE}), "28.6 %", _fed(CABBAGE), "None of"),
    "much-onion": Both(_fed({"garlic": 0.2, **CABBAGE}), "28.6 %", _fed(CABBAGE), "None of"),
    "much-starch": Both(_fed({"rice": 0.5, **CABBAGE}), "50 %", _fed(CABBAGE), "None of"),
    "much-protein": Both(_fed({"cheese": 0.5, **CABBAGE}), "50 %", _fed(CABBAGE), "None of"),
    "much-tough": Both(
        _fed({"orange peel": 0.5, "corn cob": 0.5}), "tough or slow to go", _fed(CABBAGE), "None of"
    ),
    "left-out-fed": Both(_fed({"meat": 0.05, **CABBAGE}), "9.1 %", _fed(CABBAGE), "None of"),
    "grain-fed": Both(_fed({"oats": 0.05, **CABBAGE}), "9.1 %", _fed(CABBAGE), "None of"),
    "heating-fed": Both(_fed({"oats": 0.2, **CABBAGE}), "28.6 %", _fed(CABBAGE), "None of"),
    "no-grit": Both(_fed(CABBAGE), "No grit", _fed(CABBAGE, grit_kg=0.02), "Grit was given"),
    "fed-over": Both(
        (FED, _worms(0.3), *OFTEN),
        "about 385 g a day in the last weeks; it takes 60 g to 150 g a day",
        (FED, _worms(0.3), fed("A", 35)),
        "about 41.7 g a day",
    ),
    "fed-under": Both((FED, _worms(0.3), fed("A", 35)), "about 41.7 g", (FED, _worms(0.3), *OFTEN), "385 g"),
    "uneaten-much": Both(
        (FED, _worms(0.1), fed("A", 39, {"cabbage": 5.0})),
        "by the 100 g of worms written down",
        (FED, _worms(0.1), fed("A", 5, {"lettuce": 0.1})),
        "is uneaten",
    ),
    "salty-fed": Both(_fed({"bread": 0.5}), "came to 1.25 % salt", _fed(CABBAGE), "0.05 % salt"),
    "rich-in-nitrogen": Both(
        _fed({"spinach": 0.5}), "came to C:N 8", _fed(CABBAGE, bedding_kg=CARD), "25 was the best tried"
    ),
    "water-left-over": Both(
        _fed({"watermelon": 3.0}),
        "no bedding was given to take it up",
        _fed(CABBAGE, bedding_kg=CARD),
        "1.5 l",
    ),
    "fed-thick": Both(_fed({"cabbage": 8.0}), "lay about 5.95 cm deep", _fed(CABBAGE), "0.372 cm deep"),
    "fed-bare": Both(_fed(CABBAGE), "1 of 1 feeding in the last", _fed(CABBAGE, bedding_kg=CARD), "0 of"),
    "bedding-late": Both((FED,), "put in 40 days ago", _fed(CABBAGE, bedding_kg=CARD), "put in 5 days ago"),
    "bin-new": Both((started("A", 30),), "10 days old", (started("A", -50),), "90 days old"),
    "worms-few": Both((FED, _worms(0.1)), "stocked with 256 g", (FED, _worms(0.3)), "300 g of worms"),
    "worms-crowded": Both((FED, _worms(1.0)), "3.91 times", (FED, _worms(0.2)), "0.781 times"),
    "tray-spent": Both(
        (FED, fed("A", 5), turned("A", 20, A="finishing")),
        "Tray A is finishing, last fed 35 days ago",
        (FED, fed("A", 38)),
        "Tray A is feeding, last fed 2 days ago",
        tray="A",
    ),
}


def test_every_question_is_tried_in_both_directions() -> None:
    assert set(BOTH) == set(EVIDENCE)


@pytest.mark.parametrize("code", EVIDENCE)
def test_it_speaks_for_where_it_should(code: str) -> None:
    found = EVIDENCE[code].find(BOTH[code].case(is_for=True))
    assert found.says is Says.FOR
    assert BOTH[code].says in found.words


@pytest.mark.parametrize("code", EVIDENCE)
def test_it_speaks_against_where_it_should(code: str) -> None:
    found = EVIDENCE[code].find(BOTH[code].case(is_for=False))
    assert found.says is Says.AGAINST
    assert BOTH[code].denies in found.words


@pytest.mark.parametrize("code", EVIDENCE)
def test_an_empty_bin_says_nothing_and_names_the_check_that_would(code: str) -> None:
    found = EVIDENCE[code].find(a_case())
    assert (found.says, found.rests_on) == (Says.UNKNOWN, ())
    assert found.words.endswith(".")
    assert EVIDENCE[code].check


BETWEEN = {
    "reads-wet": (FED, checked(moisture_pct=82)),
    "reads-dry": (FED, checked(moisture_pct=65)),
    "sump-fills": (FED, checked(sump_l=0.5)),
    "reads-cold": (FED, checked(temperature_c=14)),
    "reads-hot": (FED, checked(temperature_c=27)),
    "reads-acid": (FED, checked(ph=6)),
    "much-citrus": _fed({"orange peel": 0.03, **CABBAGE}),
    "fed-over": (FED, _worms(0.3), *(fed("A", day, {"cabbage": 0.5}) for day in (14, 19, 24, 29, 34))),
    "bin-new": (started("A", -5),),
    "worms-few": (FED, _worms(0.2)),
}


@pytest.mark.parametrize("code", BETWEEN)
def test_between_the_limits_it_speaks_neither_way(code: str) -> None:
    assert EVIDENCE[code].find(a_case(*BETWEEN[code])).says is Says.NEITHER


def _says(code: str, *entries: Entry, **how: Any) -> Says:
    return EVIDENCE[code].find(a_case(*entries, **how)).says


def test_old_readings_are_not_known_any_more() -> None:
    assert _says("reads-wet", FED, checked(18, feel="wet")) is Says.UNKNOWN
    assert _says("reads-cold", FED, checked(25, temperature_c=8)) is Says.UNKNOWN
    assert _says("reads-acid", FED, checked(11, ph=4)) is Says.UNKNOWN


def test_the_later_reading_counts_and_that_of_the_tray_asked_about() -> None:
    two = (FED, started("B", 0, stage="feeding"), checked(30, feel="wet"), checked(35, feel="damp"))
    wet_b = checked(36, tray="B", feel="wet")
    assert _says("reads-wet", *two) is Says.AGAINST
    assert _says("reads-wet", *two, wet_b) is Says.FOR
    assert _says("reads-wet", *two, wet_b, tray="A") is Says.AGAINST
    assert _says("reads-wet", *two, wet_b, tray="B") is Says.FOR
    assert _says("reads-wet", *two, checked(37, tray=None, feel="wet"), tray="A") is Says.FOR


def test_bedding_that_waits_may_be_dry() -> None:
    waiting = started("B", 0, level=1)
    assert _says("reads-dry", FED, waiting, checked(tray="B", feel="dry")) is Says.UNKNOWN
    assert _says("reads-dry", FED, waiting, checked(feel="dry")) is Says.FOR


def test_a_tray_started_anew_has_not_been_read() -> None:
    emptied = (checked(30, feel="wet"), entry("separation_begun", 31, tray="A"))
    again = (entry("separation_ended", 32, tray="A", outcome="finished"), started("A", 33, stage="feeding"))
    assert _says("reads-wet", FED, *emptied, *again) is Says.UNKNOWN


def test_without_worms_written_down_the_area_rule_stands_in() -> None:
    """4.88 kg/m2 a week (NC State AG-473-18) on 0.16 m2 is 112 g a day, said with two figures."""
    found = EVIDENCE["fed-over"].find(a_case(FED, *OFTEN))
    assert found.says is Says.FOR
    assert "takes 56 g to 110 g a day, by the area fed, since no worms are written down" in found.words


def test_a_young_bin_is_reckoned_over_what_it_has_had() -> None:
    """One meal of 1.2 kg in a bin fed every 12 days is 100 g a day, and not 43 g over four weeks."""
    young = a_case(started("A", 35, stage="feeding"), fed("A", 36, {"cabbage": 1.2}))
    assert "about 100 g a day" in EVIDENCE["fed-over"].find(young).words


def test_in_the_cold_whatever_is_fed_is_too_much() -> None:
    cold = (FED, _worms(1.0), fed("A", 38, {"cabbage": 0.1}), checked(temperature_c=2))
    found = EVIDENCE["fed-over"].find(a_case(*cold))
    assert found.says is Says.FOR
    assert "takes nothing at its temperature" in found.words


def test_nothing_fed_lately_is_no_citrus_and_nothing_ever_is_not_known() -> None:
    long_ago = fed("A", 2, {"orange peel": 1.0})
    assert _says("much-citrus", FED, long_ago) is Says.AGAINST
    assert _says("much-citrus", FED) is Says.UNKNOWN


def test_a_name_that_is_not_in_the_table_is_reckoned_as_mixed_scraps() -> None:
    assert _says("much-citrus", *_fed({"zzyzx": 1.0})) is Says.AGAINST


def test_shells_fed_as_scraps_count_as_grit() -> None:
    assert _says("no-grit", *_fed({"egg shell": 0.03, **CABBAGE})) is Says.AGAINST


def test_what_a_finding_rests_on_is_named() -> None:
    citrus = EVIDENCE["much-citrus"].find(BOTH["much-citrus"].case(is_for=True))
    assert citrus.rests_on == ("orange peel 200 g",)
    over = EVIDENCE["fed-over"].find(BOTH["fed-over"].case(is_for=True))
    assert over.rests_on[0].startswith("5 feedings in 26 days; household norm 0.2 to 0.5 kg per kg")
