"""Where `now` comes from."""

from __future__ import annotations

import time
from datetime import timedelta
from pathlib import Path

import pytest

from tests.builders import moment
from trayturn.clock import CLOCK_FILE, FastClock, FileClock, chosen_clock, system_clock


def test_the_system_clock_knows_its_offset_and_counts_whole_seconds() -> None:
    now = system_clock()
    assert now.utcoffset() is not None
    assert now.microsecond == 0


def test_a_fast_clock_starts_where_told_and_runs_at_its_rate(monkeypatch: pytest.MonkeyPatch) -> None:
    fast = FastClock(moment(0), rate=60, began=1000.0)
    monkeypatch.setattr(time, "time", lambda: 1000.0)
    assert fast() == moment(0)
    monkeypatch.setattr(time, "time", lambda: 1015.0)
    assert fast() == moment(0) + timedelta(minutes=15)
    assert fast().utcoffset() == moment(0).utcoffset()


def test_a_file_clock_shows_what_stands_in_its_file(tmp_path: Path) -> None:
    path = tmp_path / "clock"
    path.write_text("2026-03-01T10:00:00+01:00\n", encoding="utf-8")
    assert FileClock(path)() == moment(0)
    path.write_text("2026-03-02T10:00:00+01:00\n", encoding="utf-8")
    assert FileClock(path)() == moment(1)


@pytest.mark.parametrize("text", ["", "soon", "0001-01-01", "9999-12-31T23:59:59", "\udcff"])
def test_a_file_clock_that_shows_no_time_keeps_the_last_one(tmp_path: Path, text: str) -> None:
    path = tmp_path / "clock"
    path.write_bytes(text.encode(errors="surrogateescape"))
    clock = FileClock(path)
    with pytest.raises(ValueError, match=r".+"):
        clock()
    path.write_text("2026-03-01T10:00:00+01:00", encoding="utf-8")
    assert clock() == moment(0)
    path.write_bytes(text.encode(errors="surrogateescape"))
    assert clock() == moment(0)
    path.unlink()
    assert clock() == moment(0)
    with pytest.raises(FileNotFoundError):
        FileClock(path)()


def test_a_file_clock_without_an_offset_is_local(tmp_path: Path) -> None:
    path = tmp_path / "clock"
    path.write_text("2026-03-01T10:00:00", encoding="utf-8")
    assert FileClock(path)().utcoffset() is not None
    assert FileClock(path)().hour == 10


def test_the_environment_may_name_a_clock_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(CLOCK_FILE, raising=False)
    assert chosen_clock() is system_clock
    monkeypatch.setenv(CLOCK_FILE, str(tmp_path / "clock"))
    assert chosen_clock() == FileClock(tmp_path / "clock")
