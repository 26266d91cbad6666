"""`demo`: sample bins in a folder of their own, on a day when there is something to see in each."""

from __future__ import annotations

import math
import os
import shutil
import tempfile
from argparse import Namespace
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from trayturn.cli.parsing import Refused
from trayturn.cli.screens import need_terminal, show
from trayturn.clock import CLOCK_FILE, Clock, FastClock
from trayturn.storage.home import list_profiles, profile_path

DEMO_NOW = datetime.fromisoformat("2026-11-21T10:05:00+01:00")
FASTEST = 3600.0


def demo(options: Namespace, clock: Clock) -> int:
    """Show the sample bins: on the screens, or as text with `--plain`."""
    rate = _rate(options.clock_rate)
    if not options.plain:
        need_terminal("The tour is told as text by: trayturn demo --plain")
    moving = clock if CLOCK_FILE in os.environ else FastClock(DEMO_NOW, rate)
    with _home(options.keep) as home:
        for sample in list_profiles(sample_folder()):
            shutil.copyfile(sample, profile_path(home, sample.stem))
        return _tour(home, moving, options) if options.plain else show(home, None, moving, options)


def sample_folder() -> Path:
    """Where the sample profiles are: inside the installed package, or at the top of a checkout."""
    package = Path(__file__).resolve().parents[1]
    installed = package / "sample_profiles"
    return installed if installed.is_dir() else package.parents[1] / "sample_profiles"


def _rate(text: str) -> float:
    try:
        rate = float(text)
    except ValueError:
        rate = math.nan
    if not 0 < rate <= FASTEST:
        raise Refused(
            f"--clock-rate {text} will not do; type a number above 0 and up to {FASTEST:g}, such as 60."
        )
    return rate


@contextmanager
def _home(keep: str | None) -> Iterator[Path]:
    """A folder that goes when the demonstration ends, or the new one that the keeper wants to keep."""
    if keep is None:
        with tempfile.TemporaryDirectory(prefix="trayturn-demo-", ignore_cleanup_errors=True) as passing:
            yield Path(passing)
        return
    folder = Path(keep).expanduser()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        taken = any(folder.iterdir())
    except OSError as error:
        raise Refused(
            f"The folder {keep} cannot be made: {error.strerror}. Choose another for --keep."
        ) from None
    if taken:
        raise Refused(
            f"The folder {keep} is not empty. Choose a new one for --keep, so that nothing is overwritten."
        )
    yield folder


def _tour(home: Path, clock: Clock, options: Namespace) -> int:
    """The text twins one after the other, each under the command that prints it."""
    from trayturn.cli.main import run

    plain = ["--ascii"] if options.ascii else []
    status = 0
    for number, words in enumerate(_stops(home, clock)):
        print(f"{'' if number == 0 else chr(10)}$ trayturn {' '.join(words)}\n")
        status = max(status, run([*words, "--home", str(home), *plain], clock))
    return status


def _stops(home: Path, clock: Clock) -> list[list[str]]:
    """Bins, what is due, who is next, each stack, each separation under way, and the cautions for it."""
    from trayturn.domain.replay import replay_now
    from trayturn.storage.reading import load

    profiles = [(path.stem, load(path).profile) for path in list_profiles(home)]
    under_way = [key for key, one in profiles if one and replay_now(one, clock()).separations]
    stacks = [["stack", key] for key, _ in profiles]
    separations = [["separation", key] for key in under_way]
    return [["bins"], ["today"], ["next"], *stacks, *separations, ["cautions", "--work", "separation"]]
