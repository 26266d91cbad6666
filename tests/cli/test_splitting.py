"""`split`: worms moved from bin to bin on the command line, and taken back in both."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Keeper
from trayturn.storage.halves import Half
from trayturn.storage.home import PAIR


@pytest.fixture
def two(pantry: Keeper) -> Keeper:
    """The pantry with half a kilogram of worms, and a second bin with a tray."""
    pantry.does("log", "pantry", "worms-added", "500 g")
    pantry.does("new", "Shed", "--trays", "3")
    pantry.does("log", "shed", "started", "A", "--bedding", "cardboard=500 g", "--stage", "feeding")
    return pantry


def worms(keeper: Keeper, key: str) -> float | None:
    kg: float | None = keeper.asks("stack", key)["worms_kg"]
    return kg


def order(keeper: Keeper, key: str) -> str:
    return "".join(tray["id"] for tray in keeper.asks("stack", key)["trays"])


def test_worms_move_in_both_journals_and_what_it_comes_to_is_said(two: Keeper) -> None:
    told = two.does("split", "pantry", "shed", "--worms", "250 g", "--note", "by the handful")
    assert told.startswith("Moved 250 g of worms from Pantry to Shed, 2026-03-03 18:30.\n")
    assert "Pantry then has 250 g: 1.56 kg a square metre of one tray, 1.0 times the" in told
    assert told.splitlines()[-1] == "  trayturn log pantry undo"
    assert (worms(two, "pantry"), worms(two, "shed")) == (0.25, 0.25)
    assert "to Shed; by the handful" in two.does("journal", "pantry", "--last", "1")
    assert "from Pantry; by the handful" in two.does("journal", "shed", "--last", "1")


def test_worms_by_number_are_reckoned_by_their_mean_mass(two: Keeper) -> None:
    data = two.asks("split", "pantry", "shed", "--count", "400")
    assert data["worms_kg"] == 0.16
    assert data["entries"][-1]["counted"] == data["other_entries"][-1]["counted"] == 400
    assert (data["worms_left_kg"], data["worms_there_kg"]) == (0.34, 0.16)
    assert data["left_against_best"] == pytest.approx(0.34 / 0.16 / 1.6)


def test_a_tray_goes_along(two: Keeper) -> None:
    two.does("split", "pantry", "Shed", "--worms", "250g", "--tray", "a")
    assert (order(two, "pantry"), order(two, "shed")) == ("CB", "AB")
    assert two.kinds("shed")[-2:] == ["tray_started", "worms_added"]
    assert two.kinds("pantry")[-2:] == ["turned", "worms_removed"]
    two.does("verify", "pantry", "shed")
    told = two.does("log", "shed", "undo")
    assert "Taken back in Shed: tray started B" in told
    assert "Taken back in Pantry: turned" in told
    assert (order(two, "pantry"), order(two, "shed")) == ("CBA", "A")


def test_a_new_bin_is_made_in_the_same_act(two: Keeper) -> None:
    data = two.asks("split", "pantry", "--new", "Attic", "--worms", "250g", "--tray", "A")
    assert (data["other"], data["other_name"]) == ("attic", "Attic")
    assert order(two, "attic") == "A"
    told = two.does("split", "pantry", "--new", "Cellar", "--worms", "100g")
    assert "Cellar has no tray yet; what it begins with: trayturn begin cellar" in told
    assert "Put the worms in (done)" in two.does("begin", "cellar")


def test_undo_on_either_side_takes_both_back(two: Keeper) -> None:
    before = {key: two.asks("journal", key)["entries"] for key in ("pantry", "shed")}
    for side in before:
        two.does("split", "pantry", "shed", "--worms", "250g")
        told = " ".join(two.does("log", side, "undo").split())
        assert "Taken back in Pantry: worms removed" in told
        assert "Taken back in Shed: worms added" in told
        assert {key: two.asks("journal", key)["entries"] for key in before} == before


def test_where_the_other_bin_went_on_its_half_stays_and_that_is_said(two: Keeper) -> None:
    two.does("split", "pantry", "shed", "--worms", "250g")
    two.does("log", "shed", "note", "settled in")
    told = " ".join(two.does("log", "pantry", "undo").split())
    assert "Shed has gone on since, and what it has of it stays" in told
    assert (worms(two, "pantry"), worms(two, "shed")) == (0.5, 0.25)
    two.does("log", "shed", "undo")
    assert "stays" not in two.does("log", "shed", "undo")
    assert worms(two, "shed") is None


@pytest.mark.parametrize("side", ["pantry", "shed"])
def test_a_bin_renamed_since_still_has_its_half_taken_back(two: Keeper, side: str) -> None:
    two.does("split", "pantry", "shed", "--worms", "250g")
    path = two.home / "shed.toml"
    path.write_text(path.read_text().replace('name = "Shed"', 'name = "Loft"'))
    told = " ".join(two.does("log", side, "undo").split())
    assert "Taken back in Pantry: worms removed" in told
    assert "Taken back in Loft: worms added" in told
    assert (worms(two, "pantry"), worms(two, "shed")) == (0.5, None)


def test_worms_given_to_a_friend_are_taken_back_alone(two: Keeper) -> None:
    two.does("log", "pantry", "worms-removed", "100g", "--to", "Shed")
    assert "Shed" not in two.does("log", "pantry", "undo").splitlines()[0].split(":")[0]
    assert two.kinds("shed") == ["tray_started"]


def test_at_an_earlier_moment_the_stacks_of_then_count(two: Keeper) -> None:
    two.it_is("2026-03-09T18:30:00+01:00")
    two.does("log", "pantry", "turned", "C", "A", "B")
    data = two.asks("split", "pantry", "shed", "--worms", "100g", "--at", "2026-03-08T10:00:00+01:00")
    assert data["entries"][0]["at"] == "2026-03-08T10:00:00+01:00"
    two.does("verify", "pantry", "shed")


SLIPS = {
    "nowhere": (("pantry", "--worms", "1g"), "Name the bin they go to"),
    "twice": (("pantry", "shed", "--new", "Attic", "--worms", "1g"), "Name the bin they go to"),
    "no such bin": (("pantry", "cellar", "--worms", "1g"), "There is no bin called 'cellar'"),
    "itself": (("pantry", "pantry", "--worms", "1g"), "are the same bin"),
    "none": (("pantry", "shed"), "Half by weight would be about 250 g."),
    "both": (("pantry", "shed", "--worms", "1g", "--count", "5"), "by --worms MASS or by --count N"),
    "nothing": (("pantry", "shed", "--worms", "0"), "--worms needs more than nothing"),
    "too much": (("pantry", "shed", "--worms", "2000kg"), "--worms needs more than nothing"),
    "no amount": (("pantry", "shed", "--worms", "lots"), "--worms: 'lots' is not an amount"),
    "none counted": (("pantry", "shed", "--count", "0"), "--count needs to be from 1"),
    "too many": (("pantry", "shed", "--count", "9999999"), "--count needs to be from 1"),
    "to come": (("pantry", "shed", "--worms", "1g", "--at", "2027-01-01"), "has not come yet"),
    "no such tray": (("pantry", "shed", "--worms", "1g", "--tray", "Z"), "Tray Z is not on the stack"),
    "a name taken": (("pantry", "--new", "SHED", "--worms", "1g"), "already a bin called SHED"),
    "no name": (("pantry", "--new", " ", "--worms", "1g"), "A bin's name has 1 to 80"),
    "too early": (
        ("pantry", "shed", "--worms", "1g", "--tray", "A", "--at", "2026-02-01"),
        "Tray A is not on the stack",
    ),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_writes_nothing_anywhere(two: Keeper, slip: str) -> None:
    words, told = SLIPS[slip]
    before = {path: path.read_bytes() for path in two.home.glob("*.toml")}
    answer = two.types("split", *words)
    assert answer.status in (1, 2)
    assert answer.out == ""
    assert told in answer.err
    assert {path: path.read_bytes() for path in two.home.glob("*.toml")} == before


def test_mixed_worms_are_weighed_not_counted(two: Keeper) -> None:
    two.does("new", "Mix", "--species", "mixed")
    answer = two.types("split", "mix", "shed", "--count", "100")
    assert "--count: No figure was found for mixed worms. Weigh them." in answer.err


def test_what_was_cut_short_is_finished_by_whatever_command_comes_next(
    two: Keeper,
) -> None:
    """The power goes between the two files; the next command that looks at the bins sets it right."""
    real = Half.put

    before = (two.home / "shed.toml").read_bytes()
    halves = 0

    def once(half: Half) -> None:
        nonlocal halves
        halves += 1
        if halves == 2:
            raise KeyboardInterrupt
        real(half)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Half, "put", once)
        assert two.types("split", "pantry", "shed", "--worms", "250g").status == 130
    assert (two.home / PAIR).exists()
    assert (two.home / "shed.toml").read_bytes() == before
    two.does("bins")
    assert not (two.home / PAIR).exists()
    assert (worms(two, "pantry"), worms(two, "shed")) == (0.25, 0.25)
