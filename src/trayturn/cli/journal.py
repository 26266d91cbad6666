"""`journal`: what stands in a bin's journal, newest first."""

from __future__ import annotations

from argparse import Namespace
from itertools import groupby

from trayturn.advice.entry_words import entry_line
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_bin, readable
from trayturn.cli.parsing import Refused, moment_asked
from trayturn.clock import Clock
from trayturn.domain.entries import ENTRY_TYPES, Entry
from trayturn.domain.profile import Profile, nearest
from trayturn.domain.replay import present, standing
from trayturn.domain.words import count

Placed = tuple[int, Entry]


def journal(options: Namespace, clock: Clock) -> int:
    """Print the entries that count, of one tray or kind where asked."""
    loaded = open_bin(options)
    profile = readable(loaded)
    as_of = moment_asked(options, present(profile, clock()))
    chosen = [
        pair
        for pair in standing(profile.journal)
        if pair[1].at <= as_of and _wanted(pair[1], options, profile)
    ]
    chosen.sort(key=lambda pair: (pair[1].at, pair[0]), reverse=True)
    if options.last is not None:
        if options.last < 1:
            raise Refused(f"--last {options.last} shows nothing; type 1 or more.")
        chosen = chosen[: options.last]
    if options.json:
        entries = [as_json.entry(entry, place) for place, entry in chosen]
        as_json.print_json({"bin": loaded.key, "as_of": as_json.moment(as_of), "entries": entries})
    else:
        _print(chosen, profile, Page(options.ascii))
    return 0


def _wanted(entry: Entry, options: Namespace, profile: Profile) -> bool:
    return _is_kind(entry, options.kind) and _is_about(entry, options.tray, profile)


def _is_kind(entry: Entry, kind: str | None) -> bool:
    """Kinds are known by their name in the file and by the one that `log` takes."""
    if kind is None:
        return True
    wanted = kind.lower().replace("-", "_")
    wanted = "tray_started" if wanted == "started" else wanted
    if wanted not in ENTRY_TYPES:
        raise Refused(f"--kind {kind[:40]!r} is not a kind of entry{nearest(wanted, ENTRY_TYPES) or '.'}")
    return entry.kind == wanted


def _is_about(entry: Entry, tray: str | None, profile: Profile) -> bool:
    """About a tray by name, or a turn that it stood in."""
    if tray is None:
        return True
    named = [getattr(entry, "tray", None) or "", *getattr(entry, "order", ())]
    return tray.casefold() in [name.casefold() for name in named]


def _print(chosen: list[Placed], profile: Profile, page: Page) -> None:
    """Each entry at the clock time that the keeper read then: summer time and travels shift nothing."""
    page.line(f"{profile.bin.name}: {count(len(chosen), 'entry', 'entries')}, newest first")
    for day, pairs in groupby(chosen, key=lambda pair: pair[1].at.date()):
        page.line()
        page.line(f"{day:%a} {day.day} {day:%b} {day.year}")
        for _, entry in pairs:
            page.row(f"{entry.at:%H:%M}", entry_line(entry, profile.bin.units), 7)
