"""One press of undo takes back one act, whole."""

from __future__ import annotations

from tests.builders import a_profile, a_usual_bin, entry, fed, moment, noted, order, started, turned
from trayturn.advice.turning import turn_entries
from trayturn.domain.entries import Entry
from trayturn.domain.replay import replay, standing
from trayturn.procedure.separation import back
from trayturn.procedure.undoing import take_back


def after_undo(*journal: Entry) -> list[Entry]:
    """What stands once the last act of this journal is taken back."""
    return [e for _, e in standing([*journal, *take_back(journal, moment(200))])]


def test_a_note_goes_alone() -> None:
    journal = (*a_usual_bin(), noted("first", 70), noted("second", 70))
    assert after_undo(*journal) == list(journal[:-1])


def test_a_turn_goes_with_the_tray_it_brought_in() -> None:
    before = a_usual_bin()
    stack = replay(a_profile(*before), moment(130))
    turn = turn_entries(stack, moment(130))
    assert len(turn) == 2
    assert after_undo(*before, *turn) == list(before)
    assert order(stack) == "CAB"


def test_a_tray_started_earlier_stays_when_a_turn_goes() -> None:
    journal = (*a_usual_bin(), started("D", 65, level=4), turned("CABD", 66))
    assert after_undo(*journal) == list(journal[:-1])


def test_a_meal_goes_with_what_it_put_off() -> None:
    waiting = entry("put_off", 70, items_kg={"melon": 2.0})
    assert after_undo(*a_usual_bin(), fed("B", 70), waiting) == list(a_usual_bin())
    assert after_undo(*a_usual_bin(), fed("B", 69), waiting) == [*a_usual_bin(), fed("B", 69)]


def test_a_separations_move_goes_whole() -> None:
    begun = (
        entry("separation_begun", 120, tray="A"),
        entry("step_started", 120, tray="A", step="get_ready"),
    )
    assert after_undo(*a_usual_bin(), *begun) == list(a_usual_bin())


def test_back_leaves_what_the_keeper_wrote_meanwhile() -> None:
    begun = (
        entry("separation_begun", 120, tray="A"),
        entry("step_started", 120, tray="A", step="get_ready"),
    )
    loosening = (
        entry("cautions_read", 121, work="separation", codes=("dust",)),
        entry("step_ended", 121, tray="A", step="get_ready"),
        entry("step_started", 121, tray="A", step="loosen", pass_number=1),
    )
    meanwhile = (
        noted("a cob", 122, tray="A"),
        entry("checked", 122, tray="A", temperature_c=20),
        entry("cautions_read", 122, work="feeding", codes=("gloves",)),
        fed("A", 122),
    )
    journal: list[Entry] = [*a_usual_bin(), *begun, *loosening, *meanwhile]
    journal += back(journal, "A", moment(123))
    assert [e for _, e in standing(journal)] == [*a_usual_bin(), *begun, *meanwhile]


def test_undo_again_takes_the_act_before() -> None:
    journal: list[Entry] = [*a_usual_bin(), fed("B", 70), noted("n", 71)]
    journal += take_back(journal, moment(72))
    journal += take_back(journal, moment(72))
    assert [e for _, e in standing(journal)] == list(a_usual_bin())


def test_an_empty_journal_has_nothing_to_take_back() -> None:
    assert take_back([], moment(0)) == []
