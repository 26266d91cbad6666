"""The checklists: short enough to be read, each line with a reason and a source, none of it doubtful."""

from __future__ import annotations

import pytest

from trayturn.advice.cautions import CAUTIONS, WORKS, Caution, cautions_for


@pytest.mark.parametrize("caution", CAUTIONS, ids=lambda caution: caution.code)
def test_a_caution_is_read_at_a_glance(caution: Caution) -> None:
    assert 0 < len(caution.title) <= 34
    assert 0 < len(caution.to_do) <= 90
    assert caution.to_do.endswith((".", "?"))
    assert len(caution.why) > 20
    assert caution.source


@pytest.mark.parametrize("caution", CAUTIONS, ids=lambda caution: caution.code)
def test_a_caution_is_plain_text(caution: Caution) -> None:
    text = " ".join((caution.title, caution.to_do, caution.why, caution.source))
    assert text.isascii()
    assert not set(text) & set("[]!*`")
    assert ".md" not in text


def test_every_work_has_five_to_nine_and_no_caution_is_left_over() -> None:
    lists = {work: cautions_for(work) for work in WORKS}
    works = {"separation", "starting", "feeding", "grit", "turn", "putting_right", "giving_away"}
    assert set(WORKS) == works
    assert all(5 <= len(cautions) <= 9 for cautions in lists.values())
    assert {c.code for cautions in lists.values() for c in cautions} == {c.code for c in CAUTIONS}
    assert len({c.code for c in CAUTIONS}) == len(CAUTIONS)


@pytest.mark.parametrize(
    ("work", "code"),
    [
        ("grit", "grit_dust"),
        ("grit", "egg_allergy"),
        ("grit", "grinder"),
        ("separation", "gloves"),
        ("separation", "cuts"),
        ("separation", "tetanus"),
        ("separation", "mould"),
        ("separation", "lifting"),
        ("separation", "children"),
        ("separation", "hands"),
        ("starting", "clean_bedding"),
        ("starting", "lifting"),
        ("feeding", "no_waste"),
        ("putting_right", "ammonia"),
        ("putting_right", "mould"),
        ("putting_right", "rodents"),
        ("putting_right", "flatworms"),
        ("giving_away", "not_sterile"),
        ("giving_away", "local_rules"),
    ],
)
def test_work_names_its_own_dangers(work: str, code: str) -> None:
    assert code in [caution.code for caution in cautions_for(work)]


def test_health_questions_go_to_a_doctor_and_rules_to_the_authority() -> None:
    said = {caution.code: caution.to_do for caution in CAUTIONS}
    assert "doctor" in said["mould"]
    assert "doctor" in said["tetanus"]
    assert "authority" in said["local_rules"]
    why = {caution.code: caution.why for caution in CAUTIONS}
    assert "rules of your place" in why["rodents"]


def test_unknown_work_is_refused_with_the_known_ones() -> None:
    with pytest.raises(ValueError, match="separation, starting, feeding, grit"):
        cautions_for("juggling")
