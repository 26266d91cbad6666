"""What stands in the empty lines of a form can be typed as it stands, in the units of the bin."""

import re
from collections.abc import Callable

import pytest

from tests.builders import a_usual_bin, moment, stack_of
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.tui.screens.forms import definitions as forms
from trayturn.tui.screens.forms.fields import Field, read
from trayturn.tui.screens.forms.form import Form
from trayturn.tui.screens.forms.lists import read_masses

NOW = moment(70, 18)
BUILDERS: list[Callable[[Stack], Form]] = [
    forms.feed_form,
    forms.check_form,
    forms.start_form,
    forms.worms_form,
    forms.supplies_form,
]
AMOUNTS = {"mass", "masses"}


def a_bin(units: Units) -> Stack:
    """The usual bin, kept in these units."""
    return stack_of(*a_usual_bin(), as_of=70, units=units)


def asked(units: Units) -> list[tuple[Field, str]]:
    """Every question for a mass, with the example it gives."""
    fields = [f for build in BUILDERS for f in build(a_bin(units)).fields if f.kind in AMOUNTS]
    return [(f, re.search(r"such as ([^;]*?)(?:, without.*|;.*)?$", f.hint)[1]) for f in fields]  # type: ignore[index]


@pytest.mark.parametrize("units", Units)
def test_every_example_of_a_mass_can_be_typed_as_it_stands(units: Units) -> None:
    examples = asked(units)
    assert len(examples) == 8
    for field, example in examples:
        assert read(field, example, units, NOW), (field.name, example)


@pytest.mark.parametrize(("units", "foreign"), [(Units.METRIC, r"\d (lb|oz)\b"), (Units.US, r"\d k?g\b")])
def test_no_example_is_in_the_units_of_another_bin(units: Units, foreign: str) -> None:
    assert [example for _, example in asked(units) if re.search(foreign, example)] == []


def test_a_list_that_cannot_be_read_shows_one_in_the_bins_units() -> None:
    with pytest.raises(ValueError, match=r"such as cabbage=1 lb, apple=7 oz\.$"):
        read_masses("cabbage", Units.US)
