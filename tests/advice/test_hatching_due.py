"""The hatch tub after a separation: a bait when half may have hatched, a look once most have."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

import pytest

from tests.builders import a_usual_bin, entry, moment, stack_of, started, undone
from trayturn.advice.due import Due, Press, due_list
from trayturn.advice.due.hatching import LINGERS, hatching, tubs, weeks
from trayturn.advice.pages import Page
from trayturn.science.hatching import hatch

TAKEN = 100.0


def separated(tray: str = "A", day: float = TAKEN, outcome: str = "finished", **settled: Any) -> list[Any]:
    """Tray A separated on that day, one pass and what became of its castings."""
    done = entry("pass_done", day, tray=tray, pass_number=1, worms_seen="many", skimmed_kg=2.0)
    words = [entry("settled", day, tray=tray, **settled)] if outcome == "finished" else []
    end = entry("separation_ended", day, tray=tray, outcome=outcome)
    return [entry("separation_begun", day, tray=tray), done, *words, end]


def due(days: float, *entries: Any, temperature: float | None = 20, **setup: Any) -> dict[str, Due]:
    """What is due of hatch tubs so many days after the castings were taken, by code."""
    read = [entry("checked", TAKEN, temperature_c=temperature)] if temperature is not None else []
    journal = (*a_usual_bin(), *(entries or separated(castings_kg=1.7)), *read)
    stack = stack_of(*journal, as_of=TAKEN + days, **setup)
    return {one.code: one for one in hatching(stack)}


def test_a_lure_and_a_look_are_due_by_the_published_incubation() -> None:
    """23 to 25 days at 20 C (DEB data file of Eisenia fetida; Eurasian J. Soil Sci. 2025). Computed from
    24 +- 4.69 days taken as normal: 95 % have hatched after about 32, here 33 at the latest."""
    found = due(1)
    assert {code: (one.due, one.press, one.tray) for code, one in found.items()} == {
        "lure": (moment(TAKEN + 23), Press.LATER, "A"),
        "look": (moment(TAKEN + 34), Press.LATER, "A"),
    }
    assert [one.item for one in found.values()] == ["hatch:lure:A", "hatch:look:A"]
    assert all(one.page is Page.HATCHING for one in found.values())
    assert found["lure"].what == "Lay a bait in the hatch tub of tray A in 22 days."


def test_each_presses_on_its_day_and_the_look_takes_the_place_of_the_lure() -> None:
    pressing = {days: {code for code, one in due(days).items() if one.pressing} for days in (22, 23, 33, 34)}
    assert pressing == {22: set(), 23: {"lure"}, 33: {"lure"}, 34: {"look"}}
    assert set(due(34)) == {"look"}
    assert due(34)["look"].what == "Look for hatchlings in the hatch tub of tray A now."


def test_it_never_nags_for_a_separation_long_past() -> None:
    times = hatch(20.0)
    assert times is not None
    end = timedelta(days=times.most[1]) + LINGERS
    assert due(end.days)
    assert not due(end.days + 1)


def test_the_reason_tells_bands_in_words_and_what_they_rest_on() -> None:
    lure, look = due(10).values()
    told = " ".join(lure.why)
    assert "1.7 kg of castings was taken from tray A on Tue 9 Jun, 10 days ago." in told
    assert "half of those that hatch have done so between 3 and 4 weeks after that" in told
    assert "most (95 %) between 4 and 5 weeks" in told
    assert "Reckoned at the bin's last reading, 20 °C on Tue 9 Jun, 10 days ago; where the tub" in told
    assert "common practice, no source" in told
    assert "Eurasian J. Soil Sci. 2025" in told
    assert "82 to 88 % of cocoons hatch at all." in look.why


def test_without_a_temperature_room_warmth_is_assumed_and_said_so() -> None:
    found = due(1, temperature=None)
    assert found["lure"].due == due(1)["lure"].due
    assert "Reckoned at 20 °C, which is assumed: no temperature was read." in found["lure"].why[3]


def test_a_cooler_bin_takes_longer_and_a_wider_band() -> None:
    cool, warm = due(1, temperature=12), due(1, temperature=24)
    assert cool["lure"].due is not None
    assert warm["lure"].due is not None
    assert cool["lure"].due > moment(TAKEN + 23) > warm["lure"].due
    assert "between 4 and 8 weeks" in cool["lure"].why[2]
    assert "54 °F" in due(1, temperature=12, units="us")["lure"].why[3]


def test_the_species_counts() -> None:
    found = due(1, species="dendrobaena_veneta")
    assert (found["lure"].due, found["look"].due) == (moment(TAKEN + 21), moment(TAKEN + 67))
    assert "20 % of cocoons hatch at all." in found["look"].why
    unknown = due(1, species="eudrilus_eugeniae")["look"].why
    assert not any("hatch at all" in line for line in unknown)


@pytest.mark.parametrize(("celsius", "do"), [(1.0, "warmer"), (36.0, "cooler")])
def test_where_no_cocoon_hatches_it_says_so_and_presses_nobody(celsius: float, do: str) -> None:
    (one,) = due(1, temperature=celsius).values()
    assert one.what == f"Keep the hatch tub of tray A {do}: cocoons do not hatch like this."
    assert (one.press, one.due) == (Press.ANY_TIME, None)
    assert not due(85, temperature=celsius)


def test_skimmed_castings_of_a_tray_put_back_hatch_too() -> None:
    assert set(due(1, *separated(outcome="put_back"))) == {"lure", "look"}
    begun = [entry("separation_begun", TAKEN, tray="A"), entry("separation_ended", TAKEN, tray="A")]
    assert not due(1, *begun)


def test_a_separation_taken_back_leaves_no_tub() -> None:
    told = separated(castings_kg=1.7)
    assert not due(1, *told, undone(told[-1], TAKEN))


def test_the_latest_castings_of_each_tray_count() -> None:
    again = [*separated("A", 90), started("A", 91), *separated("A", TAKEN), *separated("C", TAKEN)]
    stack = stack_of(*a_usual_bin(), *again, as_of=TAKEN + 1)
    found = list(tubs(stack, moment(0)))
    assert [(tub.tray, tub.since, tub.castings_kg) for tub in found] == [
        ("C", moment(TAKEN), 2.0),
        ("A", moment(TAKEN), 2.0),
    ]
    assert [tub.tray for tub in tubs(stack, moment(TAKEN + 0.5))] == []


def test_done_sends_it_away_and_the_next_separation_brings_it_back() -> None:
    def codes(as_of: datetime, *more: Any) -> list[str]:
        done = entry("done", TAKEN + 25, item="hatch:lure:A")
        stack = stack_of(*a_usual_bin(), *separated(), done, *more, as_of=as_of)
        return [one.code for one in due_list(stack) if one.kind == "hatch"]

    assert codes(moment(TAKEN + 26)) == ["look"]
    again = [started("A", TAKEN + 26), *separated("A", TAKEN + 60)]
    assert codes(moment(TAKEN + 61), *again) == ["lure", "look"]


def test_a_stack_without_trays_still_has_its_tub() -> None:
    journal = [started("A", 0), *separated("A", TAKEN)]
    kinds = [one.kind for one in due_list(stack_of(*journal, as_of=TAKEN + 30))]
    assert kinds == ["hatch", "start", "hatch"]


@pytest.mark.parametrize(
    ("band", "told"),
    [
        ((23.0, 25.0), "between 3 and 4 weeks"),
        ((21.0, 49.0), "between 3 and 7 weeks"),
        ((12.4, 18.1), "between 12 and 19 days"),
        ((18.0, 21.5), "between 2 and 4 weeks"),
    ],
)
def test_a_band_is_rounded_outward(band: tuple[float, float], told: str) -> None:
    assert weeks(band) == told
