"""`log`: an entry without the screens."""

from __future__ import annotations

import difflib
from argparse import Namespace
from collections.abc import Sequence
from datetime import datetime

from trayturn.advice.castings.early import minded_taking
from trayturn.advice.castings.use import minded as minded_share
from trayturn.advice.checking.plausible import of_entry
from trayturn.advice.entry_words import entry_line
from trayturn.advice.found.hints import Hint, source_hints
from trayturn.cli import as_json
from trayturn.cli.building import BUILDERS
from trayturn.cli.desk import Desk
from trayturn.cli.kind import Kind
from trayturn.cli.kinds import KINDS, ON_SCREENS_ONLY, OTHER_NAMES
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_bin, readable
from trayturn.cli.parsing import Refused, moment_asked
from trayturn.cli.undoing import take_back_last
from trayturn.clock import Clock
from trayturn.domain.entries import CastingsGiven, CastingsUsed, Checked, Entry, Packed
from trayturn.domain.problems import Finding, Severity
from trayturn.domain.profile import Profile
from trayturn.domain.replay import present, replay
from trayturn.domain.words import listed
from trayturn.procedure.splitting import new_findings
from trayturn.storage.reading import Loaded
from trayturn.storage.saving import append

PUT_IN = ("items_kg", "bedding_kg", "supplies_kg")
"""The fields of an entry that name what goes in or is fetched."""
CHANGE_THE_ORDER = ("tray_started", "turned", "separation_begun", "separation_ended")


def log(options: Namespace, clock: Clock) -> int:
    """Save what happened, then say what was saved and what no longer adds up."""
    kind = _kind(options.what)
    typed = _parse(kind, options)
    loaded = open_bin(typed)
    before, now = readable(loaded), clock()
    entries: Sequence[Entry]
    if kind.name == "undo":
        saved, entries, said = take_back_last(loaded, now)
    else:
        entries = _build(kind, typed, before, now)
        refuse_impossible(before, entries, now)
        saved, said = append(loaded, entries), _said(entries, before)
    found = [
        *_doubted(entries, before),
        *_early(entries, before),
        *new_findings(before, readable(saved), now),
    ]
    return _confirm(typed, saved, entries, said, found)


def _kind(what: Sequence[str]) -> Kind:
    """The kind named. Raises `Refused` with the nearest one for a slip."""
    if not what or what[0].startswith("-"):
        raise Refused(
            'Say what happened right after the bin, such as note "first frost". See trayturn log --help.'
        )
    name = what[0].lower().replace("_", "-")
    name = OTHER_NAMES.get(name, name)
    if name in ON_SCREENS_ONLY:
        raise Refused(f"{name} is written by the screens, as the work goes on. Open them with: trayturn BIN")
    if name not in KINDS:
        close = difflib.get_close_matches(name, KINDS, n=1)
        hint = f"Did you mean {close[0]}?" if close else f"Use one of {listed(KINDS)}."
        raise Refused(f"{what[0][:40]!r} is not a kind of entry. {hint}")
    return KINDS[name]


def _parse(kind: Kind, options: Namespace) -> Namespace:
    """Options may stand between the items. Behind a `--` all is taken as it stands, in one go."""
    parser, rest = kind.parser(), options.what[1:]
    return parser.parse_args(rest, options) if "--" in rest else parser.parse_intermixed_args(rest, options)


def _said(entries: Sequence[Entry], profile: Profile) -> str:
    """What was written, but for the steps that go with it."""
    told = [entry_line(entry, profile.bin.units) for entry in entries if not _is_step(entry)]
    return f"Saved in {profile.bin.name}, {entries[0].at:%Y-%m-%d %H:%M}: {'; then '.join(told)}."


def _is_step(entry: Entry) -> bool:
    return entry.kind.startswith("step_")


def _build(kind: Kind, typed: Namespace, profile: Profile, now: datetime) -> list[Entry]:
    at = moment_asked(typed, now)
    if at > present(profile, now):
        raise Refused(
            f"--at {typed.at} has not come yet: it is {now:%Y-%m-%d %H:%M}. Log it once it has happened."
        )
    return BUILDERS[kind.name](Desk(profile, replay(profile, at), at, typed))


def refuse_impossible(before: Profile, entries: Sequence[Entry], now: datetime) -> None:
    """What cannot have happened is not written. What only wants a look is, and is said."""
    found = new_findings(before, before.with_entries(entries), now)
    wrong = [finding for finding in found if finding.severity is Severity.ERROR]
    if wrong:
        raise Refused(" ".join(("Nothing was saved.", *(f"{one.what} {one.to_do}".strip() for one in wrong))))


def _doubted(entries: Sequence[Entry], before: Profile) -> list[Finding]:
    """Readings that hardly can be: they are saved, and asked about."""
    checks = [entry for entry in entries if isinstance(entry, Checked)]
    doubts = [one for check in checks for one in of_entry(check, replay(before, check.at))]
    return [Finding(Severity.WARNING, "unlikely-reading", one.what) for one in doubts]


def _early(entries: Sequence[Entry], before: Profile) -> list[Finding]:
    """Castings out of a lot that is not ready, as it stood before that: they are saved, and it is said."""
    told = []
    for entry in entries:
        if isinstance(entry, Packed | CastingsUsed | CastingsGiven):
            stack = replay(before, entry.at)
            lot = stack.lot(entry.lot)
            told.append(minded_taking(lot, stack) if lot is not None else "")
    return [Finding(Severity.WARNING, "lot-not-ready", words) for words in told if words]


def _print(said: str, saved: Loaded, entries: Sequence[Entry], new: Sequence[Finding], page: Page) -> None:
    page.line(said, hanging=2)
    page.path("In", saved.path)
    if any(entry.kind in CHANGE_THE_ORDER for entry in entries):
        page.line(_order(readable(saved), max(entry.at for entry in entries)), hanging=2)
    page.lines((f"{finding.severity}: {finding}" for finding in new), hanging=2)
    page.lines((f"Mind: {hint.what}" for hint in _minded(entries, readable(saved))), hanging=2)
    page.lines((f"Mind: {words}" for words in _shares(entries)), hanging=2)
    if new:
        page.line(f"To take it back: trayturn log {saved.key} undo")


def _minded(entries: Sequence[Entry], profile: Profile) -> list[Hint]:
    """What came in before with what has just been put in or fetched."""
    named = [name for entry in entries for masses in PUT_IN for name in getattr(entry, masses, {})]
    return source_hints(replay(profile, max(entry.at for entry in entries)), named) if named else []


def _shares(entries: Sequence[Entry]) -> list[str]:
    """What to mind about the share of castings in a mix."""
    told = (minded_share(entry.share_pct) for entry in entries if isinstance(entry, CastingsUsed))
    return [words for words in told if words]


def _order(profile: Profile, at: datetime) -> str:
    trays = [f"{tray.id} {tray.stage}" for tray in replay(profile, at).trays]
    return f"The stack from the bottom up: {', '.join(trays) or 'empty'}."


def _confirm(
    typed: Namespace, saved: Loaded, entries: Sequence[Entry], said: str, new: Sequence[Finding]
) -> int:
    profile = readable(saved)
    if typed.json:
        as_json.print_json(
            {
                "bin": saved.key,
                "name": profile.bin.name,
                "path": str(saved.path),
                "entries": [as_json.entry(entry) for entry in entries],
                "findings": as_json.findings(new),
            }
        )
    else:
        _print(said, saved, entries, new, Page(typed.ascii))
    return int(any(finding.severity is Severity.ERROR for finding in new))
