"""What holds for every journal whatever: replay never raises, and the stack it makes is a possible one."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.builders import a_profile, moment
from trayturn.domain.entries import JOURNAL, Amount, Entry, Feel, Outcome, Stage, Step
from trayturn.domain.profile import Profile
from trayturn.domain.replay import SEPARATION_STEPS, in_time, replay, standing
from trayturn.domain.stack import Stack

# Few trays, few moments and few kinds of step, so that histories collide as often as they can.
TRAYS = st.sampled_from(["A", "B", "C", "Z"])
KG = st.sampled_from([0.1, 0.25, 3.0, 1000.0])
MASSES = st.dictionaries(st.sampled_from(["cabbage", "leaves", "grit"]), KG, max_size=2)
SOME_MASSES = st.dictionaries(st.sampled_from(["leaves", "grit"]), KG, min_size=1)
MOMENTS = st.builds(
    lambda day, hours: (moment(day)).astimezone(timezone(timedelta(hours=hours))),
    st.integers(min_value=0, max_value=6),
    st.sampled_from([-11, 0, 1, 14]),
)
PASSES = st.integers(min_value=1, max_value=3)
FIELDS: dict[str, dict[str, st.SearchStrategy[Any]]] = {
    "tray_started": {
        "tray": TRAYS,
        "bedding_kg": MASSES,
        "level": st.none() | st.integers(min_value=1, max_value=20),
        "stage": st.sampled_from([None, "bedding", "feeding"]),
    },
    "fed": {"tray": TRAYS, "items_kg": SOME_MASSES, "bedding_kg": MASSES, "grit_kg": st.none() | KG},
    "checked": {
        "tray": st.none() | TRAYS,
        "feel": st.none() | st.sampled_from(Feel),
        "gross_kg": st.none() | KG,
    },
    "turned": {
        "order": st.lists(TRAYS, min_size=1, max_size=5),
        "stages": st.dictionaries(TRAYS, st.sampled_from(Stage), max_size=3),
    },
    "separation_begun": {"tray": TRAYS},
    "step_started": {
        "tray": TRAYS,
        "step": st.sampled_from(Step),
        "pass_number": st.none() | PASSES,
        "ends_at": st.none() | MOMENTS,
    },
    "step_ended": {"tray": TRAYS, "step": st.sampled_from(Step), "pass_number": st.none() | PASSES},
    "deadline_moved": {"tray": TRAYS, "ends_at": MOMENTS},
    "pass_done": {
        "tray": TRAYS,
        "pass_number": PASSES,
        "worms_seen": st.sampled_from(Amount),
        "skimmed_kg": st.none() | KG,
    },
    "settled": {"tray": TRAYS, "castings_kg": st.none() | KG},
    "separation_ended": {"tray": TRAYS, "outcome": st.sampled_from(Outcome)},
    "worms_added": {"worms_kg": KG},
    "worms_removed": {"worms_kg": KG},
    "supplies_added": {"supplies_kg": SOME_MASSES},
    "supplies_used": {"supplies_kg": SOME_MASSES},
    "cautions_read": {"work": st.just("grit"), "codes": st.lists(st.sampled_from(["gloves", "mask"]))},
    "note": {"text": st.just("x")},
    "undone": {
        "entry_at": MOMENTS,
        "entry_kind": st.sampled_from(["fed", "turned", "tray_started", "undone"]),
    },
}
ROWS = st.one_of(
    [
        st.fixed_dictionaries({"kind": st.just(kind), "at": MOMENTS, **fields})
        for kind, fields in FIELDS.items()
    ]
)
# Without an opening hardly any journal would come as far as a separation.
TRAYS_ON = [{"kind": "tray_started", "at": moment(0), "tray": tray} for tray in "ABC"]
SEPARATING = [*TRAYS_ON, {"kind": "separation_begun", "at": moment(0), "tray": "A"}]
OPENINGS = st.sampled_from([[], TRAYS_ON, SEPARATING])
JOURNALS = st.builds(
    lambda opening, rows: JOURNAL.validate_python([*opening, *rows]),
    OPENINGS,
    st.lists(ROWS, max_size=4) | st.lists(ROWS, min_size=8, max_size=25),
)


def profiles() -> st.SearchStrategy[Profile]:
    def build(journal: list[Entry], pattern: str, began: datetime | None, trays: str) -> Profile:
        return a_profile(*journal, trays=trays, pattern=pattern, began=began)

    patterns = st.sampled_from(["bedding_below", "straight_up"])
    return st.builds(build, JOURNALS, patterns, st.none() | MOMENTS, st.sampled_from(["", "ABC"]))


AS_OF = MOMENTS | st.datetimes(timezones=st.sampled_from([UTC, timezone(timedelta(hours=-12))]))


def masses_of(stack: Stack) -> list[float]:
    trays = (*stack.trays, *stack.off_stack)
    in_trays = [kg for tray in trays for kg in (*tray.scraps_kg.values(), *tray.bedding_kg.values())]
    others = [tray.grit_kg for tray in trays] + [tray.water_kg for tray in trays]
    return [*in_trays, *others, *stack.supplies_kg.values(), stack.worms_kg or 0.0]


@given(profiles(), AS_OF)
def test_every_journal_makes_a_possible_stack(profile: Profile, as_of: datetime) -> None:
    stack = replay(profile, as_of)
    assert [tray.level for tray in stack.trays] == list(range(1, len(stack.trays) + 1))
    assert all(tray.level is None and tray.stage is Stage.SPARE for tray in stack.off_stack)
    assert all(tray.stage is not Stage.SPARE for tray in stack.trays)
    ids = [tray.id for tray in (*stack.trays, *stack.off_stack)]
    assert len(ids) == len(set(ids))
    assert all(kg >= 0 for kg in masses_of(stack))
    assert all(0 <= tray.days_in_stage <= tray.days_on_stack for tray in stack.trays)


@given(profiles(), AS_OF)
def test_a_tray_is_separating_just_while_its_separation_runs(profile: Profile, as_of: datetime) -> None:
    stack = replay(profile, as_of)
    assert {tray.id for tray in stack.trays if tray.stage is Stage.SEPARATING} == {
        s.tray for s in stack.separations
    }
    for separation in (*stack.separations, *stack.past_separations):
        assert all(step.ended_at is not None for step in separation.steps[:-1])


@given(profiles(), AS_OF)
def test_every_finding_names_its_entry(profile: Profile, as_of: datetime) -> None:
    for finding in replay(profile, as_of).findings:
        assert finding.entry is not None
        assert finding.where.startswith(f"entry {finding.entry} ({profile.journal[finding.entry - 1].title}")
        assert finding.what.endswith(".")


@given(profiles(), AS_OF)
def test_replay_is_the_same_every_time(profile: Profile, as_of: datetime) -> None:
    assert replay(profile, as_of) == replay(profile, as_of)


@given(profiles(), MOMENTS)
def test_the_past_is_the_journal_cut_short(profile: Profile, as_of: datetime) -> None:
    kept = standing(profile.journal)
    counted = sorted(
        ((place, entry) for at, place, entry in in_time(kept) if at <= as_of), key=lambda pair: pair[0]
    )
    cut = replace(profile, journal=tuple(entry for _, entry in counted))
    whole, short = replay(profile, as_of), replay(cut, as_of)
    assert replace(whole, findings=()) == replace(short, findings=())
    places = {place for place, _ in kept}
    told = [finding.what for finding in whole.findings if finding.entry in places]
    assert told == [finding.what for finding in short.findings]


@settings(max_examples=50)
@given(profiles(), st.randoms(use_true_random=False))
def test_the_place_in_the_file_matters_only_within_one_moment(profile: Profile, random: Any) -> None:
    kept = [entry for _, entry in standing(profile.journal) if not isinstance(entry, SEPARATION_STEPS)]
    by_moment: dict[datetime, list[Entry]] = {}
    for entry in kept:
        by_moment.setdefault(entry.at, []).append(entry)
    groups = list(by_moment.values())
    random.shuffle(groups)
    shuffled = replace(profile, journal=tuple(entry for group in groups for entry in group))
    one, other = replay(replace(profile, journal=tuple(kept)), moment(9)), replay(shuffled, moment(9))
    assert replace(one, findings=()) == replace(other, findings=())
    assert [f.what for f in one.findings] == [f.what for f in other.findings]


def test_fifteen_thousand_entries_are_read_in_one_go() -> None:
    """Decades of a busy bin, half of it taken back: the benchmarks measure the time, this the sum."""
    rows = [
        {"kind": "fed", "at": moment(n / 2), "tray": "A", "items_kg": {"cabbage": 0.5}} for n in range(7500)
    ]
    taken_back = [
        {"kind": "undone", "at": moment(9000), "entry_at": r["at"], "entry_kind": "fed"} for r in rows[:7499]
    ]
    start = {"kind": "tray_started", "at": moment(0), "tray": "A"}
    stack = replay(a_profile(*JOURNAL.validate_python([start, *rows, *taken_back])), moment(9999))
    assert (stack.trays[0].feedings, stack.findings) == (1, ())
