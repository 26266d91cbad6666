"""The figures in the pages are those the program reckons with, and those that were published."""

from __future__ import annotations

import math
import re

import pytest

from trayturn.advice import reading, resting
from trayturn.advice.handbook import Article, article, articles, fill, in_units
from trayturn.advice.handbook.book import _data
from trayturn.advice.handbook.figures import BRACES, FigureError
from trayturn.advice.handbook.known import LIFTS, LIFTS_US, known
from trayturn.advice.pages import Page
from trayturn.domain.setup import Units
from trayturn.domain.units import INCH_M, POUND_KG, SQUARE_FOOT_M2
from trayturn.science import limits, ration, temperature

PAGES = articles()
NAMED = (
    "{temp:coldest:warmest}",
    "{percent:driest:wettest}",
    "{percent:saltiest}",
    "{number:norm.low:norm.high}",
    "{density:stocking}",
    "{density:area_rule}",
    "{length:deepest}",
    "{percent:feel.dry}",
    "{number:loosen} minutes",
    "{whole:rest} minutes",
    "{whole:hatch.eisenia_fetida.20.half.low:hatch.eisenia_fetida.20.half.high}",
    "{number:holds.coir.low:holds.coir.high}",
    "{days:gone.fast.20.low:gone.fast.20.high}",
    "{load:lift.stack}",
    "{percent:salt.crackers}",
)


def raw(page: Page) -> str:
    """The page as it is written, with what stands in braces left out."""
    return BRACES.sub("", str(_data(f"pages/{page}.toml")))


def told(page: Page, units: Units = Units.METRIC) -> str:
    one = in_units(article(page), units)
    rows = [row for section in one.sections if section.table for row in section.table.rows]
    said = [said.text for section in one.sections for said in section.said]
    return "\n".join([one.summary, *(" | ".join(row.cells) for row in rows), *said])


@pytest.mark.parametrize("name", NAMED)
def test_a_figure_of_the_program_is_named_and_never_typed(name: str) -> None:
    assert any(name in str(_data(f"pages/{page}.toml")) for page in Page)
    typed = [
        page for page in Page if re.search(rf"(?<![\d.]){re.escape(fill(name, Units.METRIC))}", raw(page))
    ]
    assert [page for page in typed if (page, name) not in READ_ELSEWHERE] == []


READ_ELSEWHERE = {(page, "{whole:rest} minutes") for page in (Page.SEPARATING, Page.STRAYS, Page.STARTING)}
"""Darwin's 5 to 15 minutes, which are not the rest."""


def test_the_program_says_one_thing() -> None:
    """What two places of the code hold is the same, so that a page can speak for both."""
    assert (reading.DRIEST_PCT, reading.WETTEST_PCT) == (100 * limits.DRIEST, 100 * limits.WETTEST)
    assert (resting.COLDEST_C, resting.HOTTEST_C) == (temperature.COLDEST, temperature.WARMEST)


PUBLISHED = {
    # Earthworm Ecology, 2nd ed. 2004, Table 18.3, p. 349, after Edwards 1988
    Page.TEMPERATURE: ("15 to 20 °C", "4 to 30 °C"),
    Page.MOISTURE: ("80 to 90 %", "60 to 90 %"),
    Page.PH: ("above 5, below 9",),
    Page.SALT: ("below 0.5 %", "crackers | 2.39 %"),
    Page.SMELLS: ("below 0.5 mg/g",),
    # Ndegwa, Thompson & Das 2000; NC State AG-473-18 (1 lb a square foot a week)
    Page.FEEDING: ("0.75", "1.25", "4.88 kg/m2 a week"),
    Page.STOCKING: ("1.6 kg/m2",),
    # Bohlin et al., Table 2, and Seber 2002, example 7.4: N 122, SE 8.8
    Page.WORM_NUMBERS: ("0.4 | 2 | 42 | 30 | 21 | 15", "0.6 | 3 | 6 | 4 | 3 | 2", "about 122 in all"),
    # Harit et al. 2014; Atiyeh et al. 2000
    Page.CASTINGS: ("82 %", "49 %", "10 or 20 %"),
    # Deherain in Whisenand 1918; Evans et al. 1996
    Page.BEDDING: ("peat (acid: soak, wring, lime) | 5 to 7", "coir | 7.5 to 11", "oak leaves | 1.62"),
    # the load constant of NIOSH 94-110
    Page.LIFTING: ("23 kg",),
}


@pytest.mark.parametrize("page", PUBLISHED)
def test_a_page_says_what_was_published(page: Page) -> None:
    assert [figure for figure in PUBLISHED[page] if figure not in told(page)] == []


def test_precision_of_counts_is_that_of_the_variance_formula() -> None:
    """Bohlin's table by Zippin's variance: CV of N for a share p found in each of k picks."""
    table = article(Page.WORM_NUMBERS).sections[1].table
    assert table is not None
    for row in table.rows:
        p, k = float(row.cells[0]), int(row.cells[1])
        left = (1 - p) ** k
        for n, printed in zip((50, 100, 200, 400), row.cells[2:], strict=True):
            variance = n * (1 - left) * left / ((1 - left) ** 2 - (p * k) ** 2 * (1 - p) ** (k - 1))
            assert 100 * math.sqrt(variance) / n == pytest.approx(float(printed), abs=0.56)


def test_worked_examples_are_the_references() -> None:
    """Reference arithmetic: a tray of 0.16 m2 at 1.60 kg/m2; 1 kg of scraps at 85 % water."""
    assert known()["tray.worms"] == pytest.approx(0.256)
    assert known()["tray.area_rule"] == pytest.approx(0.781, abs=0.001)
    assert known()["surplus"] == pytest.approx(0.720, abs=0.001)
    assert known()["surplus.paper"] == pytest.approx(0.36, abs=0.001)


def test_lifts_are_the_equations_and_never_rounded_up() -> None:
    """By hand: 23 x 25/40 x (1 - 0.003 x 15) x 1 x 0.90 = 12.35 kg, and 51 lb in the US form."""
    assert known()["lift.stack"] == pytest.approx(12.35, abs=0.01)
    assert known()["lift.stack.us"] == pytest.approx(51 * 10 / 16 * 0.955 * 0.9, abs=0.01)
    for name in LIFTS:
        assert int(fill(f"{{load:lift.{name}}}", Units.METRIC).split()[0]) <= known()[f"lift.{name}"]
        assert int(fill(f"{{load:lift.{name}}}", Units.US).split()[0]) <= known()[f"lift.{name}.us"]
    assert set(LIFTS) == set(LIFTS_US)
    for name, inches in LIFTS_US.items():
        assert [length * 2.54 for length in inches[:3]] == pytest.approx(LIFTS[name][:3], rel=0.03)


SI = {
    "cm": 0.01,
    "mm": 0.001,
    "in": INCH_M,
    "kg": 1.0,
    "lb": POUND_KG,
    "kg/m2": 1.0,
    "lb/ft2": POUND_KG / SQUARE_FOOT_M2,
}


def in_si(text: str) -> list[float]:
    """The quantities in `15 to 20 cm` or `1/4 in`, SI."""
    numbers = [float(a) / float(b or 1) for a, b in re.findall(r"(\d+(?:\.\d+)?)(?:/(\d+)(?= ))?", text)]
    unit = next(unit for unit in sorted(SI | {"°C": 0, "°F": 0}, key=len, reverse=True) if unit in text)
    if unit.startswith("°"):
        return [n if unit == "°C" else (n - 32) / 1.8 for n in numbers]
    return [n * SI[unit] for n in numbers if not (unit.endswith("2") and n == 2)]


def test_what_is_said_in_both_units_is_the_same() -> None:
    pairs = {
        found for page in Page for found in BRACES.findall(str(_data(f"pages/{page}.toml"))) if "|" in found
    }
    assert len(pairs) >= 15
    for pair in pairs:
        metric, us = pair.split("|")
        assert in_si(us) == pytest.approx(in_si(metric), rel=0.035), pair


@pytest.mark.parametrize("one", PAGES, ids=lambda one: one.page)
def test_a_us_keeper_reads_no_metric_unit_and_the_other_way_round(one: Article) -> None:
    foreign = {
        Units.US: r"\d (?:°C|kg|kg/m2|kg/m3|cm|mm|l|m2)\b",
        Units.METRIC: r"\d (?:°F|lb|oz|in|ft2|qt|lb/ft2|lb/ft3)\b(?! all)",
    }
    for units, pattern in foreign.items():
        assert re.findall(pattern, told(one.page, units).replace("mg/g", "")) == []


@pytest.mark.parametrize(
    ("text", "metric", "us"),
    [
        ("{temp:coldest:warmest}", "4 to 30 °C", "39 to 86 °F"),
        ("{mass:0.3}", "300 g", "10.6 oz"),
        ("{mass:0.9:1.2}", "900 g to 1.2 kg", "1.98 to 2.65 lb"),
        ("{mass~:0.256}", "260 g", "9 oz"),
        ("{density:area_rule}", "4.88 kg/m2", "1 lb/ft2"),
        ("{loose:16}", "16 kg/m3", "0.999 lb/ft3"),
        ("{percent:driest}", "60 %", "60 %"),
        ("{2.5 cm|1 in} deep", "2.5 cm deep", "1 in deep"),
        ("{sure:ours}", "our own choice", "our own choice"),
        ("{caution:cuts} {works:tetanus}", "Cuts covered separating", "Cuts covered separating"),
    ],
)
def test_figures_are_said_in_the_keepers_units(text: str, metric: str, us: str) -> None:
    assert (fill(text, Units.METRIC), fill(text, Units.US)) == (metric, us)


@pytest.mark.parametrize("text", ["{temp:nowhere}", "{weight:1}", "{temp}", "{temp:1:2:3}", "{}"])
def test_an_unknown_figure_is_refused(text: str) -> None:
    with pytest.raises(FigureError, match="figure"):
        fill(text, Units.METRIC)


def test_the_ration_of_the_page_is_the_ration_of_the_program() -> None:
    low, high = ration.ration(1.0, 20.0).norm
    assert f"{low:g} to {high:g}" in told(Page.FEEDING)
