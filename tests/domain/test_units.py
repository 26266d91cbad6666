"""What a keeper types becomes SI, and SI becomes what a keeper reads."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trayturn.domain.setup import Units
from trayturn.domain.units import (
    GALLON_L,
    INCH_M,
    OUNCE_KG,
    POUND_KG,
    QUART_L,
    SQUARE_FOOT_M2,
    UnitError,
    parse_area,
    parse_length,
    parse_mass,
    parse_minutes,
    parse_temperature,
    parse_volume,
    show_area,
    show_length,
    show_mass,
    show_temperature,
    show_volume,
    split_quantity,
    three_figures,
)

METRIC, US = Units.METRIC, Units.US
PARSERS: list[Callable[[str], float]] = [
    parse_mass,
    parse_volume,
    parse_length,
    parse_area,
    parse_minutes,
    parse_temperature,
]
Shower = Callable[[float, Units], str]
Parser = Callable[[str, Units], float]


def test_exact_by_definition() -> None:
    # International yard and pound agreement, 1959; NIST Handbook 44, appendix C: 1 lb = 0.453 592 37 kg,
    # 1 oz = 1/16 lb, 1 in = 2.54 cm, 1 US gallon = 231 cubic inches, 4 quarts to it.
    assert POUND_KG == 0.45359237
    assert math.isclose(OUNCE_KG, 0.028349523125, rel_tol=1e-15)
    assert INCH_M == 0.0254
    assert math.isclose(GALLON_L, 231 * 2.54**3 / 1000, rel_tol=1e-15)
    assert math.isclose(QUART_L, 0.946352946, rel_tol=1e-15)
    # NIST Handbook 44, appendix C: 1 square foot = 0.092 903 04 square metre.
    assert math.isclose(SQUARE_FOOT_M2, 0.09290304, rel_tol=1e-15)


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("500 g", 0.5),
        ("500g", 0.5),
        ("  1.2 kg ", 1.2),
        ("1,5 kg", 1.5),
        (",5", 0.5),
        (".5 kg", 0.5),
        ("2.", 2.0),
        ("+3 KG", 3.0),
        ("0", 0.0),
        ("2 lb", 0.90718474),
        ("2 lbs", 0.90718474),
        ("16 oz", 0.45359237),
        ("٥ kg", 5.0),
        ("1\u00a0kg", 1.0),
    ],
)
def test_masses(text: str, kg: float) -> None:
    assert parse_mass(text) == pytest.approx(kg, rel=1e-12)


@pytest.mark.parametrize(
    ("parse", "text", "metric", "us"),
    [
        (parse_mass, "2", 2.0, 0.90718474),
        (parse_volume, "2", 2.0, 1.892705892),
        (parse_length, "2", 0.02, 0.0508),
        (parse_area, "2", 2.0, 0.18580608),
        (parse_temperature, "50", 50.0, 10.0),
    ],
)
def test_a_bare_number_is_in_the_keepers_unit(parse: Parser, text: str, metric: float, us: float) -> None:
    assert parse(text, METRIC) == pytest.approx(metric, rel=1e-12)
    assert parse(text, US) == pytest.approx(us, rel=1e-12)


def test_other_quantities() -> None:
    assert parse_volume("250 ml") == 0.25
    assert parse_volume("1 gal", US) == pytest.approx(3.785411784, rel=1e-15)
    assert parse_length("15 cm") == pytest.approx(0.15)
    assert parse_length("1 ft") == pytest.approx(0.3048)
    assert parse_area("1600 cm2") == parse_area("0,16 m²") == pytest.approx(0.16)
    assert [parse_minutes(text) for text in ("15", "90 s", "1 h", "3,5 min")] == [15, 1.5, 60, 3.5]


@pytest.mark.parametrize(("text", "celsius"), [("32 F", 0), ("212°F", 100), ("-40 f", -40), ("18 °C", 18)])
def test_temperatures_at_the_fixed_points(text: str, celsius: float) -> None:
    assert parse_temperature(text) == pytest.approx(celsius, abs=1e-12)


@pytest.mark.parametrize("parse", PARSERS)
@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "nan",
        "inf",
        "-inf",
        "kg",
        "1e400",
        "1e5 kg",
        "five",
        "½",
        "1 2",
        "1.2.3",
        "--1",
        "0x10",
        "1_000",
    ],
)
def test_odd_text_is_refused_with_a_sentence_and_an_example(parse: Callable[[str], float], text: str) -> None:
    with pytest.raises(UnitError, match=r"; (type|use) .*such as \d.*\.$"):
        parse(text)


@pytest.mark.parametrize("parse", PARSERS)
def test_a_number_too_large_to_hold_is_refused(parse: Callable[[str], float]) -> None:
    with pytest.raises(UnitError, match="is too large; type an amount such as") as caught:
        parse("9" * 400)
    assert len(str(caught.value)) < 120


def test_an_unknown_unit_names_the_known_ones() -> None:
    with pytest.raises(UnitError) as caught:
        parse_mass("5 stones")
    assert (
        str(caught.value) == "'stones' is not a unit of mass; use one of kg, g, lb, lbs, oz, such as 500 g."
    )
    with pytest.raises(UnitError, match="'k' is not a unit of temperature; use C or F"):
        parse_temperature("280 K")


def test_a_long_unit_is_cut_in_the_message() -> None:
    with pytest.raises(UnitError) as caught:
        parse_mass("5 " + "k" * 10_000)
    assert len(str(caught.value)) < 150


def test_control_characters_are_never_said_back_raw() -> None:
    with pytest.raises(UnitError) as caught:
        parse_mass("5 \x1b[31m\u202e")
    assert str(caught.value).isprintable()


def test_below_zero_is_refused_but_for_temperature() -> None:
    with pytest.raises(UnitError, match="Mass cannot be below zero, and '-5 g' is"):
        parse_mass("-5 g")
    assert parse_temperature("-5") == -5


def test_a_comma_before_three_figures_is_two_things_to_a_us_keeper() -> None:
    with pytest.raises(UnitError, match=r"'1,200 g' can be read in two ways; leave out the comma"):
        parse_mass("1,200 g", US)
    assert parse_mass("1,200 kg", METRIC) == parse_mass("1,2 kg", US) == 1.2


def outcome(parse: Callable[[str], float], text: str) -> float | str:
    """What comes of the text: a number, or the sentence that refuses it."""
    try:
        return parse(text)
    except UnitError as error:
        return str(error)


@given(st.text(max_size=30), st.sampled_from(PARSERS))
def test_any_text_is_a_finite_number_or_a_unit_error(text: str, parse: Callable[[str], float]) -> None:
    read = outcome(parse, text)
    assert isinstance(read, str) or math.isfinite(read)
    assert str(read).isprintable()


@given(st.from_regex(r"[+-]?[0-9]{1,400}([.,][0-9]{1,30})?( ?[a-z%²°]{1,3})?", fullmatch=True))
def test_any_number_is_finite_or_a_unit_error(text: str) -> None:
    read = outcome(lambda typed: split_quantity(typed)[0], text)
    assert "such as 500 g" in read if isinstance(read, str) else math.isfinite(read)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0, "0"),
        (-0.0, "0"),
        (0.4567, "0.457"),
        (4.567, "4.57"),
        (45.67, "45.7"),
        (456.7, "457"),
        (9.999, "10"),
        (999.6, "1000"),
        (1.5, "1.5"),
        (-4.567, "-4.57"),
        (12345.6, "12346"),
    ],
)
def test_three_figures(value: float, text: str) -> None:
    assert three_figures(value) == text


def test_how_amounts_read() -> None:
    assert [show_mass(kg) for kg in (0.48, 1.2, 0, 0.0005)] == ["480 g", "1.2 kg", "0 g", "0.5 g"]
    assert [show_mass(kg, US) for kg in (8 * OUNCE_KG, 2.5 * POUND_KG)] == ["8 oz", "2.5 lb"]
    assert [show_volume(litres) for litres in (0.25, 1.5)] == ["250 ml", "1.5 l"]
    assert show_volume(QUART_L * 2, US) == "2 qt"
    assert [show_length(0.15), show_length(0.1524, US)] == ["15 cm", "6 in"]
    assert [show_area(0.16), show_area(1.7 * SQUARE_FOOT_M2, US)] == ["0.16 m2", "1.7 ft2"]
    assert [show_temperature(18.4), show_temperature(18.4, US)] == ["18 °C", "65 °F"]


def test_no_temperature_is_minus_nought() -> None:
    assert show_temperature(-0.4) == "0 °C"
    assert show_temperature(-18, US) == "0 °F"


AMOUNTS = st.floats(min_value=1e-4, max_value=1000)


@pytest.mark.parametrize(
    ("show", "parse"),
    [
        (show_mass, parse_mass),
        (show_volume, parse_volume),
        (show_length, parse_length),
        (show_area, parse_area),
    ],
)
@given(amount=AMOUNTS, units=st.sampled_from(Units))
def test_what_is_shown_reads_back_to_three_figures(
    show: Shower, parse: Parser, amount: float, units: Units
) -> None:
    assert parse(show(amount, units), units) == pytest.approx(amount, rel=0.0051)


@given(st.floats(min_value=-30, max_value=70), st.sampled_from(Units))
def test_a_shown_temperature_reads_back_to_the_degree(celsius: float, units: Units) -> None:
    assert parse_temperature(show_temperature(celsius, units), units) == pytest.approx(celsius, abs=0.51)
