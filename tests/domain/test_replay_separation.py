"""A separation in the journal: the tray on top, its steps and deadlines, its passes, and where it ends."""

from __future__ import annotations

from datetime import timedelta

from tests.builders import order, stack_of, stages, started, turned, undone
from tests.domain.separating import at, begun, one_pass, running, say, separating


def test_the_tray_goes_on_top_and_the_others_close_up() -> None:
    stack = separating(*begun(), minute=0)
    assert order(stack) == "CBA"
    assert stages(stack) == {"C": "bedding", "B": "feeding", "A": "separating"}
    assert [tray.level for tray in stack.trays] == [1, 2, 3]
    assert stack.trays[2].days_in_stage == 0
    sep = running(stack)
    assert (sep.begun_at, sep.came_from_level, sep.ended_at, sep.pass_number) == (at(0), 2, None, 1)
    assert stack.findings == ()


def test_a_weight_taken_now_is_what_the_separation_starts_from() -> None:
    stack = separating(
        say("checked", -60, gross_kg=9.0),
        *begun(),
        say("checked", 2, gross_kg=8.0),
        say("checked", 50, gross_kg=3.0),
    )
    assert running(stack).gross_kg == 8.0
    assert stack.trays[2].gross_kg == 3.0


def test_a_rest_under_way() -> None:
    journal = (
        *begun(),
        say("step_ended", 4, step="get_ready"),
        say("step_started", 4, step="loosen", pass_number=1, ends_at=at(7.5)),
        say("step_ended", 8, step="loosen", pass_number=1),
        say("step_started", 8, step="rest", pass_number=1, ends_at=at(23)),
    )
    stack = separating(*journal, minute=12)
    step = running(stack).step
    assert step is not None
    assert (step.step, step.pass_number, step.started_at, step.ends_at) == ("rest", 1, at(8), at(23))
    assert (step.planned, step.ended_at) == (timedelta(minutes=15), None)
    assert [(s.step, s.ended_at) for s in running(stack).steps[:2]] == [
        ("get_ready", at(4)),
        ("loosen", at(8)),
    ]
    earlier = running(separating(*journal, minute=5)).step
    assert earlier is not None
    assert (earlier.step, earlier.ends_at) == ("loosen", at(7.5))


def test_a_rest_whose_end_has_gone_by_is_still_under_way() -> None:
    journal = (*begun(), say("step_started", 8, step="rest", pass_number=1, ends_at=at(23)))
    step = running(separating(*journal, minute=50_000)).step
    assert step is not None
    assert step.ends_at == at(23)


def test_a_deadline_moved_keeps_what_was_planned() -> None:
    journal = (*begun(), say("step_started", 8, step="rest", pass_number=1, ends_at=at(23)))
    moved = (say("deadline_moved", 10, ends_at=at(28)), say("deadline_moved", 11, ends_at=at(20)))
    step = running(separating(*journal, *moved)).step
    assert step is not None
    assert (step.ends_at, step.planned) == (at(20), timedelta(minutes=15))
    back = running(separating(*journal, *moved, undone(moved[1], at(12)))).step
    assert back is not None
    assert back.ends_at == at(28)


def test_a_step_begun_closes_the_one_before() -> None:
    sep = running(separating(*begun(), say("step_started", 4, step="loosen", pass_number=1)))
    assert [(step.step, step.ended_at) for step in sep.steps] == [("get_ready", at(4)), ("loosen", None)]


def test_passes_add_up() -> None:
    stack = separating(
        *begun(),
        *one_pass(4, 1, "none", skimmed_kg=1.5, overs="a corn cob"),
        *one_pass(30, 2, "many", skimmed_kg=0.5),
        *one_pass(60, 3),
    )
    sep = running(stack)
    assert [done.worms_seen for done in sep.passes] == ["none", "many", "few"]
    assert (sep.pass_number, sep.skimmed_kg, sep.passes[0].overs) == (3, 2.0, "a corn cob")
    assert sep.step is None
    assert stack.findings == ()


def test_finished_the_tray_is_spare_and_its_castings_are_a_harvest() -> None:
    stack = separating(
        *begun(),
        *one_pass(skimmed_kg=2),
        say("settled", 30, castings_kg=4.2, worms_to="the feeding tray", rest_to="tray B", overs_to="tray C"),
        say("step_started", 30, step="clean_up"),
        say("separation_ended", 40),
    )
    assert (order(stack), stages(stack)["A"], stack.separations) == ("CB", "spare", ())
    (past,) = stack.past_separations
    assert (past.ended_at, past.outcome, past.step) == (at(40), "finished", None)
    assert past.settled is not None
    assert past.settled.worms_to == "the feeding tray"
    (harvest,) = stack.harvests
    assert (harvest.tray, harvest.at, harvest.castings_kg) == ("A", at(30), 4.2)
    assert stack.findings == ()


def test_castings_not_weighed_are_no_harvest() -> None:
    stack = separating(*begun(), say("settled", 30), say("separation_ended", 40))
    assert stack.harvests == ()
    assert stack.past_separations[0].settled is not None


def test_put_back_the_tray_finishes_on_its_old_level() -> None:
    stack = separating(*begun(), say("separation_ended", 5, outcome="put_back"))
    assert (order(stack), stages(stack)["A"]) == ("CAB", "finishing")
    assert stack.past_separations[0].outcome == "put_back"
    assert stack.past_separations[0].steps[0].ended_at == at(5)


def test_put_back_into_a_stack_that_has_shrunk() -> None:
    stack = separating(*begun("B"), turned("C", at(2)), say("separation_ended", 5, "B", outcome="put_back"))
    assert order(stack) == "CB"
    assert stages(stack)["A"] == "spare"


def test_a_tray_may_be_separated_again() -> None:
    put_back = (*begun(), say("separation_ended", 5, outcome="put_back"))
    stack = separating(*put_back, *begun(minute=60))
    assert running(stack).begun_at == at(60)
    assert (len(stack.past_separations), running(stack).passes, stack.findings) == (1, (), ())


def test_several_at_once_keep_apart() -> None:
    stack = separating(
        *begun("A"),
        *begun("B", 1),
        say("step_started", 2, "A", step="rest", pass_number=1, ends_at=at(17)),
        say("step_started", 3, "B", step="loosen", pass_number=1, ends_at=at(7)),
        say("deadline_moved", 4, "A", ends_at=at(30)),
    )
    assert order(stack) == "CAB"
    ends = {sep.tray: sep.step.ends_at for sep in stack.separations if sep.step}
    assert ends == {"A": at(30), "B": at(7)}


def test_put_back_goes_under_a_tray_still_being_separated() -> None:
    stack = separating(*begun("B"), *begun("A", 1), say("separation_ended", 5, "B", outcome="put_back"))
    assert order(stack) == "CBA"
    assert stages(stack) == {"C": "bedding", "B": "finishing", "A": "separating"}


def test_a_turn_leaves_the_tray_being_separated_on_top() -> None:
    stack = separating(*begun(), started("D", at(2)), turned("DBC", at(3)))
    assert order(stack) == "DBCA"
    assert stages(stack) == {"D": "bedding", "B": "finishing", "C": "feeding", "A": "separating"}
    assert stack.findings == ()


def test_a_fresh_tray_goes_on_top_but_under_the_one_being_separated() -> None:
    entries = (
        started("A", stage="feeding"),
        started("B", 60),
        turned("AB", 60),
        *begun(),
        started("C", at(2)),
    )
    stack = stack_of(*entries, pattern="straight_up")
    assert (order(stack), stack.findings) == ("BCA", ())


def test_in_the_middle_of_it_the_past_is_shown_as_it_was() -> None:
    journal = (*begun(), *one_pass(), say("settled", 30, castings_kg=4), say("separation_ended", 40))
    assert order(separating(*journal, minute=-1)) == "CAB"
    assert running(separating(*journal, minute=27)).passes == ()
    assert len(running(separating(*journal, minute=28)).passes) == 1
    assert separating(*journal, minute=29).harvests == ()
    assert separating(*journal, minute=40).separations == ()


def test_taken_back_to_before_it_began() -> None:
    journal = begun()
    stack = separating(*journal, *(undone(e, at(3)) for e in reversed(journal)))
    assert (order(stack), stages(stack)["A"], stack.separations) == ("CAB", "finishing", ())
    assert stack.findings == ()


def test_what_comes_out_of_the_tray_meanwhile_stands_with_its_separation() -> None:
    found = say("contaminant_found", 20, what="sticker", count=3)
    carried = say("overs_carried", 40, to="B", pieces=({"what": "corn cob"},))
    others = (say("contaminant_found", 21, tray="B", what="tape"), say("note", 22, text="warm"))
    stack = separating(say("contaminant_found", -5, what="glass"), *begun(), found, *others, carried)
    assert running(stack).came_out == (found, carried)


def test_a_rest_chosen_for_the_pass_stands_with_its_first_step() -> None:
    chosen = say("step_started", 30, step="loosen", pass_number=2, rest_minutes=10.0)
    step = running(separating(*begun(), *one_pass(), chosen)).step
    assert step is not None
    assert step.rest_minutes == 10
