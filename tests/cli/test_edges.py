"""The edge: every trouble is one sentence on stderr and an exit status, and stdout holds data alone."""

from __future__ import annotations

import os
import subprocess
import sys
from datetime import datetime
from pathlib import Path

import pytest

from tests.cli.conftest import Keeper
from trayturn.cli import main as edge
from trayturn.cli.commands import COMMANDS
from trayturn.cli.parsing import Refused, read_moment
from trayturn.storage.home import COMMANDS as RESERVED

SRC = str(Path(edge.__file__).resolve().parents[2])


def run(
    *words: str, code: str = "", home: Path | None = None, **options: object
) -> subprocess.CompletedProcess[bytes]:
    """A command in a process of its own."""
    env = os.environ | {"PYTHONPATH": SRC} | ({"TRAYTURN_HOME": str(home)} if home else {})
    env |= {str(key): str(value) for key, value in options.items()}
    start = ["-c", code] if code else ["-m", "trayturn"]
    return subprocess.run([sys.executable, *start, *words], env=env, capture_output=True, check=False)


def test_no_bin_can_be_named_like_a_command() -> None:
    assert set(COMMANDS) <= set(RESERVED)


def test_version(keeper: Keeper) -> None:
    assert keeper.does("--version") == keeper.does("today", "--version")
    assert keeper.does("--version").startswith("trayturn ")


@pytest.mark.parametrize("words", [(), ("pantry",), ("--ascii", "--theme", "dark")])
def test_the_screens_need_a_terminal(pantry: Keeper, words: tuple[str, ...]) -> None:
    answer = pantry.types(*words)
    assert (answer.status, answer.out) == (2, "")
    assert "trayturn today" in answer.err


@pytest.mark.parametrize("command", ["stack", "journal", "separation", "verify"])
def test_an_unknown_bin_is_told_with_the_nearest(pantry: Keeper, command: str) -> None:
    answer = pantry.types(command, "pantyr")
    assert (answer.status, answer.out) == (2, "")
    assert "Did you mean 'pantry'" in answer.err


def test_a_bin_goes_by_its_shown_name_or_its_path(pantry: Keeper) -> None:
    by_key = pantry.asks("stack", "pantry")
    assert pantry.asks("stack", "PANTRY") == by_key
    assert pantry.asks("stack", str(pantry.home / "pantry.toml")) == by_key


def test_a_misspelt_command(pantry: Keeper) -> None:
    assert "Or did you mean the command: trayturn today" in pantry.types("tody").err
    answer = pantry.types("verfy", "x")
    assert (answer.status, answer.out) == (2, "")
    assert "did you mean verify?" in answer.err


@pytest.mark.parametrize(
    "words", [("--bogus",), ("today", "--bogus"), ("stack",), ("today", "--theme", "pink")]
)
def test_a_misspelt_option(keeper: Keeper, words: tuple[str, ...]) -> None:
    answer = keeper.types(*words)
    assert (answer.status, answer.out) == (2, "")
    assert answer.err.startswith("trayturn: ")
    assert answer.err.count("\n") == 1


SLIPS = {
    ("journal", "pantry", "--kind", "fedd"): "did you mean fed?",
    ("journal", "pantry", "--last", "0"): "--last 0 shows nothing",
    ("cautions", "--work", "feding"): "did you mean feeding?",
    ("cautions", "--work", "zzz"): "use one of separation",
    ("stack", "pantry", "--at", "then"): "--at 'then' is not a time",
    ("demo", "--plain", "--clock-rate", "0"): "--clock-rate 0 will not do",
    ("demo", "--plain", "--clock-rate", "nan"): "--clock-rate nan will not do",
}


@pytest.mark.parametrize("words", SLIPS)
def test_a_slip_in_a_reading_command(pantry: Keeper, words: tuple[str, ...]) -> None:
    answer = pantry.types(*words)
    assert (answer.status, answer.out) == (2, "")
    assert SLIPS[words] in answer.err


def test_options_stand_before_the_command_or_after_it(pantry: Keeper, tmp_path: Path) -> None:
    elsewhere = str(tmp_path / "elsewhere")
    assert pantry.asks("--home", elsewhere, "bins")["bins"] == []
    assert pantry.asks("bins", "--home", elsewhere)["bins"] == []
    assert len(pantry.asks("bins")["bins"]) == 1


def test_a_home_that_is_no_folder(keeper: Keeper) -> None:
    answer = keeper.types("bins", "--home", str(keeper.clock_file))
    assert (answer.status, answer.out) == (1, "")
    assert "cannot be opened" in answer.err


def test_a_clock_file_without_a_time(keeper: Keeper) -> None:
    keeper.it_is("noon")
    answer = keeper.types("today")
    assert (answer.status, answer.out) == (2, "")
    assert "shows no time" in answer.err


@pytest.mark.parametrize("text", ["2026-03-01", "2026-03-01 10:00", " 2026-03-01T10:00 "])
def test_a_time_without_an_offset_is_local(text: str) -> None:
    assert read_moment(text) == datetime.fromisoformat(text.strip()).astimezone()


def test_a_time_keeps_its_offset() -> None:
    assert read_moment("2026-03-01T10:00:00-05:00").isoformat() == "2026-03-01T10:00:00-05:00"
    assert read_moment("2026-03-01T10:00:00Z").isoformat() == "2026-03-01T10:00:00+00:00"


@pytest.mark.parametrize(
    "text", ["", "now", "2026", "2026-13-01", "10:00", "0001-01-01", "9999-12-31T23:59-23:59"]
)
def test_what_is_no_time(text: str) -> None:
    with pytest.raises(Refused, match="is not a time"):
        read_moment(text)


@pytest.mark.parametrize("year", ["1900-01-01", "2999-12-31"])
def test_far_moments_are_answered(separating: Keeper, year: str) -> None:
    for words in (
        ("stack", "pantry"),
        ("today",),
        ("next",),
        ("bins",),
        ("journal", "pantry"),
        ("separation", "pantry"),
    ):
        assert separating.does(*words, "--at", year)


def test_an_interrupt_is_quiet(keeper: Keeper, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(*_: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(edge, "run", interrupt)
    answer = keeper.types("today")
    assert (answer.status, answer.out, answer.err) == (130, "", "")


def test_ascii_output_holds_every_letter_as_data(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "note", "Küche 厨房 🪱")
    done = run("journal", "pantry", "--json", home=pantry.home, PYTHONIOENCODING="ascii")
    assert done.returncode == 0
    assert b"K\\u00fcche" in done.stdout


def test_ascii_output_of_text_does_not_fail(pantry: Keeper) -> None:
    pantry.does("log", "pantry", "note", "Küche 厨房 🪱")
    pantry.does("log", "pantry", "checked", "--temperature", "18")
    done = run("journal", "pantry", home=pantry.home, PYTHONIOENCODING="ascii")
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"K?che" in done.stdout
    plain = run("journal", "pantry", "--ascii", home=pantry.home, PYTHONIOENCODING="ascii")
    assert b"18 C" in plain.stdout


def test_a_reader_that_leaves_is_no_trouble(pantry: Keeper) -> None:
    for _ in range(3):
        pantry.does("log", "pantry", "note", "x" * 19_000)
    reading = subprocess.Popen(
        [sys.executable, "-m", "trayturn", "journal", "pantry"],
        env=os.environ | {"PYTHONPATH": SRC},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert reading.stdout is not None
    assert reading.stderr is not None
    reading.stdout.close()
    assert reading.stderr.read() == b""
    reading.stderr.close()
    assert reading.wait() == 141


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_behind_stdout(pantry: Keeper) -> None:
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "trayturn", "bins"],
            env=os.environ | {"PYTHONPATH": SRC},
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.returncode == 1
    assert done.stderr.startswith(b"trayturn: The output could not be written")
    assert done.stderr.count(b"\n") == 1


@pytest.mark.skipif(os.name == "nt", reason="needs a shell that closes streams")
@pytest.mark.parametrize("words", ["today", "stack pantry --json", "nothing such", ""])
def test_closed_streams_are_no_trouble(pantry: Keeper, words: str) -> None:
    command = f'exec "{sys.executable}" -m trayturn {words} <&- >&- 2>&-'
    done = subprocess.run(["sh", "-c", command], env=os.environ | {"PYTHONPATH": SRC}, check=False)
    assert done.returncode == (0 if "a" in words else 2)


LOADED = """
import sys
from trayturn.cli.main import main
status = main(sys.argv[1:])
names = {name.partition(".")[0] for name in sys.modules}
print(*sorted(names & set("textual rich numpy filelock tomlkit pydantic".split())), file=sys.stderr)
raise SystemExit(status)
"""


@pytest.mark.parametrize(
    "words",
    [
        *("--help", "--version", "today --help", "stack --version", "log --help"),
        *("outlook --help", "score --help", "compare --help"),
    ],
)
def test_help_loads_nothing(pantry: Keeper, words: str) -> None:
    done = run(*words.split(), code=LOADED, home=pantry.home)
    assert (done.returncode, done.stderr.split()) == (0, [])


@pytest.mark.parametrize(
    "words",
    [
        "verify pantry",
        "today",
        "next",
        "bins",
        "stack pantry",
        "stack pantry --json",
        "journal pantry",
        "cautions",
    ],
)
def test_reading_commands_load_no_screens_and_nothing_that_writes(pantry: Keeper, words: str) -> None:
    done = run(*words.split(), code=LOADED, home=pantry.home)
    assert (done.returncode, done.stderr.split()) == (0, [b"pydantic"])


@pytest.mark.parametrize("name", sorted(set(COMMANDS) - {"outlook", "compare", "demo"}))
def test_no_command_but_the_outlook_and_ways_loads_numpy(pantry: Keeper, name: str) -> None:
    """Called with a bin, whether it takes one or not. Its score loads it only where something was weighed."""
    done = run(name, "pantry", code=LOADED, home=pantry.home)
    assert not {b"numpy", b"textual"} & set(done.stderr.split())


def test_the_outlook_loads_numpy_and_no_screens(pantry: Keeper) -> None:
    done = run("outlook", "pantry", "--draws", "20", code=LOADED, home=pantry.home)
    assert done.returncode == 0
    assert set(done.stderr.split()) == {b"numpy", b"pydantic"}


def test_logging_loads_no_screens(pantry: Keeper) -> None:
    done = run("log", "pantry", "note", "x", code=LOADED, home=pantry.home)
    assert done.returncode == 0
    assert not {b"textual", b"rich", b"numpy", b"tomlkit"} & set(done.stderr.split())
