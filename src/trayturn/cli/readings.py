"""`readings`: the latest of each reading, its range, its history and what to do. Twin of the check screen."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from trayturn.advice.checking.additions import Addition
from trayturn.advice.checking.history import Point, checks_of
from trayturn.advice.checking.judging import JUDGES
from trayturn.advice.checking.kinds import LABELS, OF_THE_BIN, Kind, said
from trayturn.advice.checking.ranges import Range, range_of
from trayturn.advice.checking.scene import Scene
from trayturn.advice.checking.trend import Trend
from trayturn.advice.checking.verdict import Verdict
from trayturn.advice.pantry import pantry_of
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_bin, readable, stack_asked
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.entries import Feel
from trayturn.domain.profile import Profile
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.words import clean, count, day, listed

LATEST = 5
"""How many of the latest readings are told in text; --json has more."""
MARKS = ("noted", "fine", "watch", "act")


def readings(options: Namespace, clock: Clock) -> int:
    """Print what each reading of the bin and its trays amounts to."""
    loaded = open_bin(options)
    profile = readable(loaded)
    stack = stack_asked(options, profile, clock())
    scenes = _scenes(stack, profile, options.tray)
    if options.json:
        as_json.print_json(
            {
                "bin": stack.key,
                "name": stack.setup.name,
                "as_of": as_json.moment(stack.as_of),
                "whole_bin": [_data(kind, scenes[0]) for kind in Kind if kind in OF_THE_BIN],
                "trays": [_tray_data(scene) for scene in scenes],
            }
        )
    else:
        _print(scenes, stack, Page(options.ascii))
    return 0


def _scenes(stack: Stack, profile: Profile, wanted: str | None) -> list[Scene]:
    """Each tray on the stack, the top one first, or the one asked for. Raises `Refused`."""
    trays: Sequence[TrayState | None] = tuple(reversed(stack.trays)) or (None,)
    if wanted is not None:
        trays = [t for t in (*stack.trays, *stack.off_stack) if t.id.casefold() == wanted.casefold()]
        if not trays:
            known = listed(t.id for t in (*stack.trays, *stack.off_stack)) or "none"
            name = clean(stack.setup.name, 60)
            raise Refused(f"{name} has no tray {clean(wanted, 40)!r} by then. Its trays are {known}.")
    checks, pantry = checks_of(profile), pantry_of(profile)
    return [Scene(stack, tray, checks, pantry) for tray in trays]


def _of_the_tray(scene: Scene) -> list[Kind]:
    return [kind for kind in Kind if kind not in OF_THE_BIN]


def _tray_data(scene: Scene) -> as_json.Data:
    tray = scene.tray
    return {
        "tray": tray.id if tray else None,
        "stage": str(tray.stage) if tray else None,
        "readings": [_data(kind, scene) for kind in _of_the_tray(scene)],
    }


def _data(kind: Kind, scene: Scene) -> as_json.Data:
    points = scene.past(kind)
    known = range_of(kind, scene.stack.setup)
    verdict = JUDGES[kind](points[-1], scene) if points else None
    return {
        "kind": str(kind),
        "value": _value(points[-1]) if points else None,
        "at": as_json.moment(points[-1].at) if points else None,
        "range": None if known is None else _range_data(known),
        "history": [_point_data(point) for point in points],
        "verdict": None if verdict is None else _verdict_data(verdict),
    }


def _value(point: Point) -> object:
    """Numbers in SI (moisture in percent), words as they are, pests as a list."""
    return list(map(str, point.value)) if isinstance(point.value, tuple) else point.value


def _point_data(point: Point) -> as_json.Data:
    feel = {"percent": point.number} if isinstance(point.value, Feel) else {}
    return {"at": as_json.moment(point.at), "value": _value(point), **feel}


def _range_data(known: Range) -> as_json.Data:
    return {"best": list(known.best), "limits": list(known.limits), "sources": list(known.lines)}


def _verdict_data(verdict: Verdict) -> as_json.Data:
    return {
        "level": MARKS[verdict.level],
        "word": verdict.word,
        "what": verdict.what,
        "do": list(verdict.do),
        "why": list(verdict.why),
        "trend": None if verdict.trend is None else _trend_data(verdict.trend),
        "add": None if verdict.addition is None else _addition_data(verdict.addition),
    }


def _trend_data(trend: Trend) -> as_json.Data:
    return {
        "word": trend.word,
        "change": round(trend.change, 4),
        "days": as_json.days(trend.days),
        "readings": trend.readings,
    }


def _addition_data(addition: Addition) -> as_json.Data:
    return {
        "what": addition.stuff.name,
        "low_kg": as_json.amount(addition.kg.low),
        "kg": as_json.amount(addition.kg.mid),
        "high_kg": as_json.amount(addition.kg.high),
        "at_once_kg": as_json.amount(addition.at_once_kg),
        "goal": addition.goal,
    }


def _print(scenes: Sequence[Scene], stack: Stack, page: Page) -> None:
    as_of = stack.as_of
    page.title(stack.setup.name, f"{as_of:%a} {as_of.day} {as_of:%b} {as_of.year}, {as_of:%H:%M}")
    page.line("The bin")
    for kind in Kind:
        if kind in OF_THE_BIN:
            _print_one(kind, scenes[0], page)
    for scene in scenes:
        if scene.tray is not None:
            page.line()
            page.line(f"Tray {scene.tray.id}, {scene.tray.stage}")
            for kind in _of_the_tray(scene):
                _print_one(kind, scene, page)
    _print_sources(scenes, page)


def _print_sources(scenes: Sequence[Scene], page: Page) -> None:
    """What the readings were held against and what the advice rests on, each once."""
    page.line()
    page.line("What this rests on")
    for kind in Kind:
        known = range_of(kind, scenes[0].stack.setup)
        told = list(known.lines) if known is not None else []
        for scene in scenes:
            if points := scene.past(kind):
                told += JUDGES[kind](points[-1], scene).why
        page.lines((f"{LABELS[kind]}: {line}" for line in dict.fromkeys(told)), 2, 2)


def _print_one(kind: Kind, scene: Scene, page: Page) -> None:
    """One reading: as it stands, what to do, and how it has been."""
    points = scene.past(kind)
    if not points:
        page.row(LABELS[kind], "not read yet", 13)
        return
    verdict, units = JUDGES[kind](points[-1], scene), scene.units
    page.row(LABELS[kind], f"{verdict.what} Read {day(points[-1].at, scene.stack.as_of)}.", 13)
    page.lines((f"Do: {text}" for text in verdict.do), 15, 2)
    if len(points) > 1:
        page.line(f"Before: {_told(points, units, scene)}.", 15, 2)
    if verdict.trend is not None:
        page.line(verdict.trend.words(units), 15, 2)


def _told(points: Sequence[Point], units: Units, scene: Scene) -> str:
    """The readings before the last one, the newest first."""
    earlier = points[-1 - LATEST : -1]
    told = [f"{said(p.kind, p.value, units)} {day(p.at, scene.stack.as_of)}" for p in reversed(earlier)]
    more = len(points) - 1 - len(earlier)
    return ", ".join(told) + (f", and {count(more, 'reading')} more" if more else "")
