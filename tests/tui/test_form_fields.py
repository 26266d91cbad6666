"""What is typed into a field, and what becomes of it."""

from datetime import datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import ZONE, moment
from trayturn.domain.setup import Units
from trayturn.tui.screens.forms.fields import Field, Option, read
from trayturn.tui.screens.forms.lists import read_masses, write_masses
from trayturn.tui.screens.forms.moments import read_moment

NOW = moment(10, 18)
METRIC = Units.METRIC
PICK = Field("p", "Worms", "pick", options=(Option("few", "a few"), Option("many", "many")))


@pytest.mark.parametrize(
    ("text", "masses"),
    [
        ("cabbage=500 g, apple=200 g", {"cabbage": 0.5, "apple": 0.2}),
        ("cabbage 500 g; apple 0.2", {"cabbage": 0.5, "apple": 0.2}),
        ("cabbage = 1,5 kg, apple=2,25", {"cabbage": 1.5, "apple": 2.25}),
        ("coffee grounds 300 g", {"coffee grounds": 0.3}),
        ("no 7 peel 1 kg", {"no 7 peel": 1.0}),
        ("apple=100 g, apple=50 g", {"apple": 0.15}),
        (" , ;", {}),
        ("", {}),
        ("[/=1 kg, {'a[0]'} 2 kg", {"[/": 1.0, "{'a[0]'}": 2.0}),
    ],
)
def test_masses_are_read_in_both_ways_of_writing(text: str, masses: dict[str, float]) -> None:
    assert read_masses(text, METRIC) == pytest.approx(masses)


def test_a_bare_mass_is_in_the_keepers_unit() -> None:
    assert read_masses("cabbage 2", Units.US) == pytest.approx({"cabbage": 0.90718474})


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("cabbage", "'cabbage' needs a name and a mass, such as cabbage=500 g, apple=200 g."),
        ("500 g", "'500 g' needs a name and a mass"),
        ("cabbage=much", "cabbage: 'much' is not an amount"),
        ("cabbage=5 x, apple=1 kg", "cabbage: 'x' is not a unit of mass"),
        ("cabbage=0 g", "cabbage: the mass must be more than nothing"),
        ("cabbage=900 kg, cabbage=900 kg", "cabbage: the mass must be at most 1000 kg"),
        ("x" * 201 + "=1 kg", "is too long"),
    ],
)
def test_masses_that_cannot_be_read_are_named(text: str, said: str) -> None:
    with pytest.raises(ValueError, match=r"^[^\n]+$") as slip:
        read_masses(text, METRIC)
    assert said in str(slip.value)


names = st.text(
    st.characters(exclude_characters="=,;\n", exclude_categories=["C", "Z"]), min_size=1, max_size=20
)


@given(st.dictionaries(names, st.floats(0.001, 999), max_size=4))
def test_masses_written_out_read_back_alike(masses: dict[str, float]) -> None:
    assert read_masses(write_masses(masses, METRIC), METRIC) == pytest.approx(masses, rel=0.006)


def test_a_name_that_would_not_read_back_is_not_offered() -> None:
    assert write_masses({"a=b": 1, "leaf mould": 0.2}, METRIC) == "leaf mould=200 g"


@pytest.mark.parametrize(
    ("text", "then"),
    [
        ("", NOW),
        ("10:30", moment(10, 10, 30)),
        ("9.05", moment(10, 9, 5)),
        ("today 10:30", moment(10, 10, 30)),
        ("Yesterday 18:00", moment(9, 18)),
        ("yesterday", moment(9, 18)),
        ("2026-03-04 08:15", moment(3, 8, 15)),
        ("2026-03-04", moment(3, 0)),
        ("2026-03-04T07:15:00+00:00", moment(3, 8, 15)),
    ],
)
def test_a_moment_is_read_as_it_is_said(text: str, then: datetime) -> None:
    assert read_moment(text, NOW) == then


@pytest.mark.parametrize(
    "text", ["noon", "25:00", "yesterday noon", "10:99", "0206-03-01", "9999-12-31", "[red]"]
)
def test_what_is_no_moment_is_said_with_an_example(text: str) -> None:
    with pytest.raises(ValueError, match="is not a time; type 10:30, yesterday 18:00"):
        read_moment(text, NOW)


@pytest.mark.parametrize("text", ["19:00", "2026-03-12", "2027-01-01 10:00"])
def test_a_moment_still_to_come_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="still to come"):
        read_moment(text, NOW)


def test_a_moment_keeps_the_keepers_zone() -> None:
    assert read_moment("10:30", NOW).utcoffset() == ZONE.utcoffset(None)
    far = timezone(timedelta(hours=9))
    assert read_moment("01:30", NOW.astimezone(far)).utcoffset() == timedelta(hours=9)


@pytest.mark.parametrize(
    ("field", "text", "value"),
    [
        (Field("f", "F", "mass"), "500 g", 0.5),
        (Field("f", "F", "volume"), "250 ml", 0.25),
        (Field("f", "F", "length"), "15 cm", 0.15),
        (Field("f", "F", "area"), "0.16 m2", 0.16),
        (Field("f", "F", "temperature"), "65 F", 18.333),
        (Field("f", "F", "minutes"), "1 h", 60),
        (Field("f", "F", "percent"), "70 %", 70),
        (Field("f", "F", "number"), "6,5", 6.5),
        (Field("f", "F", "whole"), " 4 ", 4),
    ],
)
def test_a_quantity_is_read_into_si(field: Field, text: str, value: float) -> None:
    assert read(field, text, METRIC, NOW) == pytest.approx(value, abs=0.001)
    assert read(field, "  ", METRIC, NOW) is None


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [
        (Field("f", "Mass", "mass", required=True), " ", "Mass is still to be filled in."),
        (Field("f", "F", "percent", most=100), "170", "'170' cannot be: F is at most 100 %"),
        (Field("f", "F", "number", least=1), "0", "'0' cannot be: F is at least 1"),
        (Field("f", "F", "percent"), "wet", "'wet' is not a percentage, such as 70."),
        (Field("f", "F", "number"), "7 kg", "'7 kg' is not a plain number, such as 7."),
        (Field("f", "F", "whole"), "4.5", "'4.5' is not a whole number, such as 4."),
        (Field("f", "F", "text", most=5), "too long", "This is 8 characters long; the most is 5."),
        (PICK, "none", "Worms is one of a few, many."),
    ],
)
def test_a_slip_is_told_in_one_sentence(field: Field, text: str, said: str) -> None:
    with pytest.raises(ValueError, match=r"^[^\n]+$") as slip:
        read(field, text, METRIC, NOW)
    assert said in str(slip.value)


def test_a_pick_gives_the_options_value() -> None:
    assert read(PICK, "few", METRIC, NOW) == "few"
    assert read(PICK, "", METRIC, NOW) is None
