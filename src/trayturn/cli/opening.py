"""From the words for a bin to its profile, and to its stack at the moment asked about."""

from __future__ import annotations

from argparse import Namespace
from datetime import datetime
from pathlib import Path

from trayturn.cli.parsing import Refused, read_moment
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay, replay_now
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean
from trayturn.storage.errors import NotFound
from trayturn.storage.home import home_dir, list_profiles, resolve
from trayturn.storage.reading import Loaded, load

BROKEN = 1


def find_path(options: Namespace, words: str) -> Path:
    """The file of the bin that the words name. Raises `Refused` when there is none."""
    try:
        return resolve(home_dir(options.home), words)
    except NotFound as error:
        raise Refused(str(error)) from None


def open_bin(options: Namespace) -> Loaded:
    """The bin that the command names, as read from its file."""
    return load(find_path(options, options.bin))


def open_all(options: Namespace) -> list[Loaded]:
    """Every profile of the home folder, broken ones too."""
    return [load(path) for path in list_profiles(home_dir(options.home))]


def readable(loaded: Loaded) -> Profile:
    """The profile. Raises `Refused` with every problem when its file could not be read as one."""
    if loaded.profile is None or loaded.problems:
        listing = "".join(f"\n  {clean(str(problem))}" for problem in loaded.problems)
        raise Refused(f"{loaded.path} has problems, so nothing is taken from it:{listing}", BROKEN)
    return loaded.profile


def stack_asked(options: Namespace, profile: Profile, now: datetime) -> Stack:
    """The bin as of the moment that `--at` names, or as it is at present by a clock that reads `now`."""
    return replay(profile, read_moment(options.at)) if options.at else replay_now(profile, now)
