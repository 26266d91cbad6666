"""Plain data becomes a profile, and what is wrong with it is said in words a keeper can act on."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from tests.builders import a_profile, fed, moment, started
from trayturn.domain.problems import Finding, Problem, Severity
from trayturn.domain.profile import nearest, read_journal, read_setup
from trayturn.domain.setup import BinSetup, Pattern, Tray, Units

BIN = 'format = 1\n[bin]\nname = "Pantry"\n'
AT = "at = 2026-03-01T10:00:00+01:00\n"


def setup_faults(text: str) -> list[str]:
    return [str(problem) for problem in read_setup(tomllib.loads(text))[2]]


def journal_faults(text: str, first: int = 1) -> list[str]:
    return [str(problem) for problem in read_journal(tomllib.loads(text)["journal"], first)[1]]


def one_entry(fields: str) -> list[str]:
    return journal_faults(f"[[journal]]\n{AT}{fields}")


def test_a_name_is_enough() -> None:
    setup, trays, problems = read_setup(tomllib.loads(BIN))
    assert setup == BinSetup(name="Pantry")
    assert (trays, problems) == ((), [])


def test_everything_is_read() -> None:
    text = (
        BIN + 'units = "us"\npattern = "straight_up"\nbegan = 2026-03-01T10:00:00+01:00\ntray_area_m2 = 1\n'
    )
    setup, trays, problems = read_setup(tomllib.loads(text + '[[trays]]\nid = "Ä-1"\nempty_kg = 1.1\n'))
    assert problems == []
    assert setup is not None
    assert (setup.units, setup.pattern, setup.began) == (Units.US, Pattern.STRAIGHT_UP, moment(0))
    assert trays == (Tray(id="Ä-1", empty_kg=1.1),)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("format = 1", "bin: is missing; a profile needs a [bin] table with at least a name"),
        ('[bin]\nname = "x"', "format: is missing; a profile begins with format = 1"),
        (
            'format = 2\n[bin]\nname = "x"',
            "format: is 2, written by a newer trayturn; this one reads format 1",
        ),
        ('format = "1"\n[bin]\nname = "x"', "format: is not one that is known; write format = 1"),
        ('format = true\n[bin]\nname = "x"', "format: is not one that is known; write format = 1"),
        ('format = 1\n[[bin]]\nname = "x"', "bin: needs to be one table, written [bin] and not [[bin]]"),
        ("format = 1\nbin = 3", "bin: needs a table of keys and values (it is 3)"),
        ("format = 1\n[bin]", "bin.name: is missing"),
        ('format = 1\n[bin]\nname = ""', "bin.name: needs some text (it is '')"),
        ("format = 1\n[bin]\nname = 5", "bin.name: needs text in quotes (it is 5)"),
        (BIN + "tray_cuont = 4", "bin.tray_cuont: is not a key that is known here, did you mean tray_count?"),
        (BIN + "xyzzy = 4", "bin.xyzzy: is not a key that is known here"),
        (BIN + "[journl]", "journl: is not a table of a profile, did you mean journal?"),
        (BIN + 'units = "feet"', "bin.units: needs one of 'metric' or 'us' (it is 'feet')"),
        (BIN + "tray_count = 0", "bin.tray_count: needs 1 or more (it is 0)"),
        (BIN + "tray_area_m2 = -1", "bin.tray_area_m2: needs more than 0.005 (it is -1)"),
        (BIN + "tray_area_m2 = nan", "bin.tray_area_m2: needs a finite number (it is nan)"),
        (BIN + "rest_minutes = 5000", "bin.rest_minutes: needs 1440 or less (it is 5000)"),
        (
            BIN + "tray_area_m2 = true",
            "bin.tray_area_m2: needs a number, without quotes or a unit (it is true)",
        ),
        (
            BIN + "tray_count = 4.5",
            "bin.tray_count: needs a whole number, without quotes or a unit (it is 4.5)",
        ),
        (
            BIN + "began = 2026-03-01T10:00:00",
            "bin.began: needs its offset from UTC, such as 2026-03-01T10:00:00+01:00 "
            "(it is 2026-03-01T10:00:00)",
        ),
        (BIN + '[trays]\nid = "A"', "trays: needs one [[trays]] for each tray"),
        (
            'format = 1\ntrays = ["A"]\n[bin]\nname = "x"',
            "trays[1]: needs a table of keys and values (it is 'A')",
        ),
        (BIN + '[[trays]]\nnote = "x"', "trays[1].id: is missing"),
        (
            BIN + '[[trays]]\nid = "A"\n[[trays]]\nid = "B 2"',
            "trays[2].id: needs letters and digits without spaces, such as B (it is 'B 2')",
        ),
        (BIN + '[[trays]]\nid = "A"\n[[trays]]\nid = "A"', "trays: tray A is listed more than once"),
    ],
)
def test_faults_of_a_setup(text: str, fault: str) -> None:
    assert setup_faults(text) == [fault]


def test_an_unknown_species_is_told_the_known_ones() -> None:
    (fault,) = setup_faults(BIN + 'species = "eisenia"')
    assert fault.startswith("bin.species: is not a species listed here; use one of eisenia_fetida, ")
    assert fault.endswith("(it is 'eisenia')")


def test_all_faults_are_told_at_once() -> None:
    faults = setup_faults('colour = "red"\n[bin]\ntray_count = -1\n[[trays]]\nid = 1\n')
    assert [fault.split(":")[0] for fault in faults] == [
        "format",
        "colour",
        "bin.name",
        "bin.tray_count",
        "trays[1].id",
    ]


@pytest.mark.parametrize(
    ("fields", "fault"),
    [
        ("", 'journal[1]: has no kind, such as kind = "note"'),
        ('kind = "fedd"', "journal[1]: has the unknown kind 'fedd', did you mean fed?"),
        ("kind = 3", "journal[1]: has the unknown kind 3"),
        ('kind = ["fed"]', "journal[1]: has the unknown kind ['fed'], did you mean fed?"),
        (
            'kind = "fed"\ntray = "B"',
            "journal[1]: a feeding needs at least one of items_kg, bedding_kg, grit_kg or water_kg",
        ),
        (
            'kind = "fed"\ntray = "B"\nitem_kg = { cabbage = 0.5 }',
            "journal[1].item_kg: is not a key that is known here, did you mean items_kg?",
        ),
        (
            'kind = "fed"\ntray = "B"\nitems_kg = { cabbage = "500 g" }',
            "journal[1].items_kg.cabbage: needs a number, without quotes or a unit (it is '500 g')",
        ),
        (
            'kind = "fed"\ntray = "B"\nitems_kg = { cabbage = -0.5 }',
            "journal[1].items_kg.cabbage: needs more than 0 (it is -0.5)",
        ),
        (
            'kind = "fed"\ntray = "B"\nitems_kg = { "" = 0.5 }',
            "journal[1].items_kg.?: the name needs some text (it is '')",
        ),
        (
            'kind = "fed"\ntray = "B"\nitems_kg = ["cabbage"]',
            "journal[1].items_kg: needs a table, such as { cabbage = 0.5 }",
        ),
        ('kind = "checked"\nmoisture_pct = 170', "journal[1].moisture_pct: needs 100 or less (it is 170)"),
        (
            'kind = "checked"\nfeel = "soggy"',
            "journal[1].feel: needs one of 'dry', 'damp', 'moist' or 'wet' (it is 'soggy')",
        ),
        (
            'kind = "turned"\norder = "ABC"',
            'journal[1].order: needs a list, such as ["A", "B"] (it is \'ABC\')',
        ),
        ('kind = "turned"\norder = []', "journal[1].order: needs at least 1 in it"),
        ('kind = "turned"\norder = ["A", 2]', "journal[1].order[2]: needs text in quotes (it is 2)"),
        ('kind = "turned"\norder = [2]', "journal[1].order[1]: needs text in quotes (it is 2)"),
        ('kind = "note"\ntext = ""', "journal[1].text: needs some text (it is '')"),
    ],
)
def test_faults_of_an_entry(fields: str, fault: str) -> None:
    assert one_entry(fields) == [fault]


@pytest.mark.parametrize(
    ("at", "fault"),
    [
        ("2026-03-01", "needs a date and time without quotes, such as"),
        ('"2026-03-01T10:00:00+01:00"', "needs a date and time without quotes, such as"),
        ("10:00:00", "needs a date and time without quotes, such as"),
        ("2026-03-01T10:00:00", "needs its offset from UTC, such as"),
        ("0206-03-01T10:00:00Z", "needs a year from 1900 to 2199 (it is 0206-"),
        ("9999-12-31T23:00:00-10:00", "needs a year from 1900 to 2199 (it is 9999-"),
    ],
)
def test_faults_of_a_time(at: str, fault: str) -> None:
    (told,) = journal_faults(f'[[journal]]\nkind = "note"\ntext = "x"\nat = {at}')
    assert told.startswith(f"journal[1].at: {fault}")


@pytest.mark.parametrize("rows", [{"kind": "fed"}, "fed", 3, None])
def test_a_journal_that_is_no_list(rows: Any) -> None:
    assert read_journal(rows) == ([], [Problem("needs one [[journal]] for each entry", "journal")])


def test_rows_that_are_no_tables() -> None:
    told = [str(problem) for problem in read_journal(["fed", 1, None, []])[1]]
    assert [fault.split(" (")[0] for fault in told] == [
        f"journal[{n}]: needs a table of keys and values" for n in (1, 2, 3, 4)
    ]


def test_entries_are_counted_from_where_they_stand_in_the_file() -> None:
    assert journal_faults(f'[[journal]]\nkind = "fed"\n{AT}\n[[journal]]\nkind = "x"', first=300) == [
        "journal[300].tray: is missing",
        "journal[301]: has the unknown kind 'x'",
    ]


def test_a_hostile_key_cannot_reach_the_terminal() -> None:
    (told,) = one_entry('kind = "note"\ntext = "x"\n"\\u001b[31m\\u202e' + "k" * 500 + '" = 1')
    assert told.isprintable()
    assert len(told) < 120


def test_nearest() -> None:
    assert nearest("fedd", ["fed", "note"]) == ", did you mean fed?"
    assert nearest("zzz", ["fed", "note"]) == nearest("", []) == ""


def test_a_profile_grows_at_its_end_and_stays_as_it_was() -> None:
    profile = a_profile(started("A"))
    assert profile.with_entries([fed("A", 1)]).journal == (started("A"), fed("A", 1))
    assert profile.journal == (started("A"),)


def test_a_tray_weighs_what_it_says_or_what_the_set_says() -> None:
    profile = a_profile(trays="AB", tray_empty_kg=0.8)
    heavier = type(profile)(profile.key, profile.bin, (Tray(id="A", empty_kg=0.0), Tray(id="B")))
    assert [heavier.empty_kg(tray) for tray in "ABZ"] == [0.0, 0.8, 0.8]


def test_problems_and_findings_say_where() -> None:
    assert (
        str(Problem("is missing", "bin.name", 3, "pantry.toml"))
        == "pantry.toml, line 3, bin.name: is missing"
    )
    assert str(Problem("is missing")) == "is missing"
    finding = Finding(Severity.ERROR, "a-code", "What.", "To do.", "entry 3", 3)
    assert str(finding) == "entry 3: What. To do."
    assert str(Finding(Severity.INFO, "a-code", "What.")) == "What."
    assert finding.as_json() == {
        "severity": "error",
        "code": "a-code",
        "what": "What.",
        "to_do": "To do.",
        "where": "entry 3",
        "entry": 3,
    }
