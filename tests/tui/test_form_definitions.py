"""The forms, without a screen: what they offer and what they build."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from tests.builders import a_usual_bin, entry, fed, moment, stack_of, started, undone
from tests.strategies import texts
from trayturn.domain.entries import (
    Amount,
    Checked,
    Fed,
    Feel,
    Note,
    Pest,
    SuppliesCounted,
    SuppliesUsed,
    TrayStarted,
    WormsAdded,
    WormsRemoved,
)
from trayturn.domain.setup import BinSetup, Pattern, Tray, Units
from trayturn.procedure.splitting import Split
from trayturn.tui.screens.forms import definitions as forms
from trayturn.tui.screens.forms.definitions import Moving
from trayturn.tui.screens.forms.form import Form, Slip

NOW = moment(70, 18)
STACK = stack_of(*a_usual_bin(), as_of=70, trays="ABC")
EVERY = [
    forms.feed_form(STACK),
    forms.check_form(STACK),
    forms.note_form(STACK),
    forms.start_form(STACK),
    forms.worms_form(STACK),
    forms.worms_form(STACK, {"shed": STACK}, "move"),
    forms.supplies_form(STACK),
    forms.new_bin_form(),
    forms.change_form(BinSetup(name="Pantry")),
    forms.copy_form("Pantry"),
]


def filled(form: Form, **texts: str) -> Any:
    """What the form builds from these texts; the rest stays as it is offered."""
    values, wrong = form.read_all(texts, NOW)
    assert wrong == {}
    return form.build(values, NOW)


def offered(form: Form, name: str) -> tuple[list[str], str]:
    """The values to pick from, and the one that stands ready."""
    field = next(field for field in form.fields if field.name == name)
    return [option.value for option in field.options], field.default


def test_a_feeding_is_offered_for_the_tray_to_feed_next_with_the_last_bedding() -> None:
    form = forms.feed_form(STACK, fed("A", 3, bedding_kg={"cardboard": 0.2}))
    assert offered(form, "tray") == (["B", "A", "C"], "B")
    assert filled(form, items="cabbage=500 g", grit="10 g", note="chopped") == [
        Fed(
            at=NOW,
            tray="B",
            items_kg={"cabbage": 0.5},
            bedding_kg={"cardboard": 0.2},
            grit_kg=0.01,
            note="chopped",
        )
    ]


def test_a_feeding_can_be_told_later_and_of_another_tray() -> None:
    form = forms.feed_form(STACK, tray="C")
    assert filled(form, items="cabbage 1", when="yesterday 9:00") == [
        Fed(at=moment(69, 9), tray="C", items_kg={"cabbage": 1.0})
    ]


def test_an_empty_feeding_says_what_is_missing() -> None:
    with pytest.raises(ValueError, match="fill in scraps, bedding or grit"):
        filled(forms.feed_form(STACK))


def test_a_bin_with_no_tray_says_so_and_no_feeding_is_built() -> None:
    form = forms.feed_form(stack_of())
    assert "no tray on the stack" in form.intro
    assert form.read_all({"items": "cabbage 1"}, NOW)[1] == {"tray": "Tray is still to be filled in."}


def test_the_last_feeding_that_stands_lends_its_bedding() -> None:
    first, second, again = fed("A", 1), fed("A", 2), fed("A", 2, {"pear": 1})
    assert forms.last_feeding([first, second, undone(second, 3)]) == first
    assert forms.last_feeding([first, second, undone(second, 3), again]) == again
    assert forms.last_feeding([first, second, again, undone(second, 3)]) == second
    assert forms.last_feeding([]) is None


def test_a_check_takes_one_reading_or_all() -> None:
    form = forms.check_form(STACK)
    assert filled(form, feel="damp") == [Checked(at=NOW, tray="B", feel=Feel.DAMP)]
    whole = filled(
        form, tray="", temperature_c="18", sump_l="250 ml", strays="few", moisture_pct="70%", ph="7"
    )
    assert whole == [Checked(at=NOW, temperature_c=18, sump_l=0.25, strays=Amount.FEW, moisture_pct=70, ph=7)]


def test_a_check_takes_worms_seen_and_pests_by_name() -> None:
    form = forms.check_form(STACK)
    assert filled(form, worms="many", pests="springtails, Ants") == [
        Checked(at=NOW, tray="B", worms=Amount.MANY, pests=(Pest.SPRINGTAILS, Pest.ANTS))
    ]
    assert form.read_all({"pests": "ents"}, NOW)[1] == {
        "pests": "'ents' is not known under Pests; did you mean ants?"
    }


def test_a_typed_check_refuses_what_cannot_be() -> None:
    form = forms.check_form(STACK)
    with pytest.raises(ValueError, match="the empty tray alone weighs 900 g"):
        filled(form, gross_kg="200 g")
    assert form.read_all({"sump_l": "9 l"}, NOW)[1] == {
        "sump_l": "'9 l' cannot be: In the sump is at least 0 and at most 5 l."
    }


def test_readings_of_nothing_at_all_count_as_readings() -> None:
    assert filled(forms.check_form(STACK), sump_l="0", temperature_c="0") == [
        Checked(at=NOW, tray="B", sump_l=0, temperature_c=0)
    ]


@pytest.mark.parametrize(
    ("texts", "said"), [({}, "at least one reading"), ({"tray": "", "gross_kg": "6 kg"}, "pick the tray")]
)
def test_a_check_says_what_is_missing(texts: dict[str, str], said: str) -> None:
    with pytest.raises(ValueError, match=said):
        filled(forms.check_form(STACK), **texts)


def test_a_note_is_about_the_bin_or_a_tray() -> None:
    assert filled(forms.note_form(STACK), text="first frost") == [Note(at=NOW, text="first frost")]
    assert filled(forms.note_form(STACK), text="[/", tray="A") == [Note(at=NOW, text="[/", tray="A")]


def test_a_tray_put_on_is_a_spare_one_and_the_first_is_fed_at_once() -> None:
    empty = forms.start_form(stack_of(trays="ABC"))
    assert offered(empty, "tray")[1] == "A"
    assert filled(empty, bedding="cardboard 500 g") == [
        TrayStarted(at=NOW, tray="A", bedding_kg={"cardboard": 0.5}, stage="feeding")
    ]
    full = forms.start_form(STACK, [Tray(id=name) for name in "ABC"])
    assert offered(full, "tray")[1] == "D"
    assert filled(full, level="2", water="600 g") == [TrayStarted(at=NOW, tray="D", level=2, water_kg=0.6)]


def test_a_level_in_the_air_is_refused() -> None:
    assert "at most 4" in forms.start_form(STACK).read_all({"level": "9"}, NOW)[1]["level"]


def test_worms_go_in_and_come_out() -> None:
    form = forms.worms_form(STACK)
    assert filled(form, kg="500 g", place="a friend") == [
        WormsAdded(at=NOW, worms_kg=0.5, tray="B", source="a friend")
    ]
    assert filled(form, way="out", kg="200 g", tray="") == [WormsRemoved(at=NOW, worms_kg=0.2)]


def test_worms_counted_are_written_down_by_their_mean_mass() -> None:
    form = forms.worms_form(STACK)
    (added,) = filled(form, counted="400")
    assert (round(added.worms_kg, 6), added.counted) == (0.16, 400)
    (weighed,) = filled(form, kg="200 g", counted="400")
    assert (weighed.worms_kg, weighed.counted) == (0.2, 400)


@pytest.mark.parametrize(
    ("species", "texts", "field"),
    [("eisenia_fetida", {}, "kg"), ("mixed", {"counted": "400"}, "counted")],
)
def test_worms_without_a_weight_are_a_slip_of_one_field(
    species: str, texts: dict[str, str], field: str
) -> None:
    form = forms.worms_form(stack_of(*a_usual_bin(), as_of=70, species=species))
    with pytest.raises(Slip) as slip:
        filled(form, **texts)
    assert slip.value.field == field


def test_worms_move_to_a_bin_that_is_there_or_to_a_new_one() -> None:
    form = forms.worms_form(STACK, {"shed": STACK}, "move")
    assert offered(form, "to") == (["shed", "+"], "shed")
    assert offered(form, "along") == (["", "B", "C"], "")
    assert filled(form, kg="200 g", note="by hand") == Moving(
        Split(NOW, 0.2, tray="B", note="by hand"), "shed", ""
    )
    assert filled(form, kg="200 g", along="C", to="+", name="Attic") == Moving(
        Split(NOW, 0.2, along="C"), None, "Attic"
    )


def test_only_what_fits_the_way_is_asked() -> None:
    form = forms.worms_form(STACK, {"shed": STACK})

    def asked(**texts: str) -> set[str]:
        return {field.name for field in form.fields if form.is_asked(field, texts)}

    both = {"way", "kg", "counted", "note", "when"}
    assert asked() == asked(way="out") == both | {"tray", "place"}
    assert asked(way="move") == both | {"to", "along", "tray"}
    assert asked(way="move", to="+", along="B") == both | {"to", "name", "along"}
    values, wrong = form.read_all({"way": "move", "name": "x" * 500, "place": "y" * 500}, NOW)
    assert (wrong, values["name"], values["place"]) == ({}, None, None)


def test_the_form_says_what_a_number_weighs_and_how_both_bins_stand() -> None:
    worms = entry("worms_added", 1, worms_kg=0.5)
    stack = stack_of(*a_usual_bin(), worms, as_of=70)
    form = forms.worms_form(stack, {"shed": stack_of(started("A"), as_of=70, name="Shed")})
    assert form.aside is not None
    blank = {field.name: field.default for field in form.fields}
    assert form.aside(blank, NOW) == ""
    assert form.aside({**blank, "counted": "400"}, NOW).startswith("400 worms are 100 g to 220 g")
    move = {**blank, "way": "move"}
    assert form.aside(move, NOW) == "Half by weight is about 250 g: common practice, no source."
    assert form.aside({**move, "kg": "lots"}, NOW) == form.aside(move, NOW)
    assert form.aside({**move, "kg": "200 g"}, NOW) == (
        "Pantry then has 300 g, 1.2 times the published best for a tray.\n"
        "Shed then has 200 g, 0.8 times the published best for a tray."
    )
    assert "The new bin then has" in form.aside({**move, "kg": "200 g", "to": "+"}, NOW)
    unknown = forms.worms_form(STACK, way="move")
    assert unknown.aside is not None
    texts = {field.name: field.default for field in unknown.fields}
    assert "not written down" in unknown.aside(texts, NOW)


def test_a_first_tray_and_first_worms_stand_in_the_form_as_planned() -> None:
    form = forms.start_form(stack_of(trays="ABC"), (), {"shredded cardboard": 0.48}, 1.4)
    assert filled(form) == [
        TrayStarted(at=NOW, tray="A", bedding_kg={"shredded cardboard": 0.48}, water_kg=1.4, stage="feeding")
    ]
    assert filled(forms.worms_form(STACK, planned_kg=0.26)) == [WormsAdded(at=NOW, worms_kg=0.26, tray="B")]


def test_supplies_are_listed_with_what_is_in_stock() -> None:
    form = forms.supplies_form(
        stack_of(started("A", 0), *filled(forms.supplies_form(STACK), masses="grit 2 kg"))
    )
    assert form.intro == "In stock: grit 2 kg."
    assert filled(form, way="out", masses="grit=1 kg") == [SuppliesUsed(at=NOW, supplies_kg={"grit": 1.0})]


def test_supplies_are_counted_and_may_be_none() -> None:
    form = forms.supplies_form(STACK, "counted")
    assert filled(form, masses="grit=0, straw=1 kg") == [
        SuppliesCounted(at=NOW, supplies_kg={"grit": 0.0, "straw": 1.0})
    ]
    for way in ("in", "out"):
        values, wrong = form.read_all({"way": way, "masses": "grit=0 g"}, NOW)
        assert wrong == {}
        with pytest.raises(ValueError, match="only what was counted can be none"):
            form.build(values, NOW)


def test_a_new_bin_needs_only_a_name() -> None:
    made = filled(forms.new_bin_form(), name="厨房")
    assert (made.setup.name, made.setup.tray_count, made.setup.rest_minutes) == ("厨房", 4, 15)
    assert [tray.id for tray in made.trays] == ["A", "B", "C", "D"]


def test_a_new_bin_in_us_units_is_typed_in_them() -> None:
    made = filled(
        forms.new_bin_form(),
        name="Shed",
        units="us",
        tray_count="5",
        pattern="straight_up",
        tray_empty_kg="2",
        place="shed",
        places_beside="3",
        trays_on_a_place="1",
        stands_m="12",
        places_m="36",
    )
    assert made.setup.units is Units.US
    assert made.setup.pattern is Pattern.STRAIGHT_UP
    assert made.setup.tray_empty_kg == pytest.approx(0.90718474)
    assert (made.setup.places_beside, made.setup.trays_on_a_place) == (3, 1)
    assert made.setup.stands_m == pytest.approx(0.3048)
    assert made.setup.places_m == pytest.approx(0.9144)
    assert len(made.trays) == 5


def test_names_are_asked_with_the_present_one_ready() -> None:
    assert filled(forms.change_form(BinSetup(name="Pantry"))) == {"name": "Pantry"}
    assert filled(forms.copy_form("Pantry")) == "Pantry (copy)"
    assert len(filled(forms.copy_form("x" * 80))) == 80


def built_or_told(form: Form, values: dict[str, Any]) -> Any:
    """What the form builds, or the sentence that says why it builds nothing yet."""
    try:
        return form.build(values, NOW)
    except ValidationError:
        return None
    except ValueError as slip:
        return str(slip)


@pytest.mark.parametrize("form", EVERY, ids=lambda form: form.title)
@given(st.data())
def test_whatever_is_typed_is_built_or_told_in_a_sentence(form: Form, data: st.DataObject) -> None:
    typed = texts | st.sampled_from(["1", "0", "-5", "500 g", "70 %", "a 1", "x=1e9", "1e999", "٣", "10:30"])
    given_texts = {
        field.name: data.draw(st.sampled_from([option.value for option in field.options] or [""]) | typed)
        if field.kind == "pick"
        else data.draw(typed)
        for field in form.fields
    }
    values, wrong = form.read_all(given_texts, NOW)
    assert all(words and "\n" not in words for words in wrong.values())
    if not wrong:
        assert built_or_told(form, values)
