"""An outlook made up by hand, so that its screen is tried without the model."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta

from trayturn.advice.outlook import words
from trayturn.advice.outlook.history import history_of
from trayturn.advice.outlook.plan import plan_of
from trayturn.advice.outlook.result import (
    Days,
    Fan,
    Five,
    Harvest,
    Misfit,
    NarrowMost,
    Outlook,
    PastForecast,
    Point,
    RestsOn,
    Skill,
)
from trayturn.advice.outlook.what_if import Compared
from trayturn.domain.replay import replay
from trayturn.tui.screens.outlook.asking import Answer, Asked

SPREAD = (0.8, 0.9, 1.0, 1.1, 1.2)
AHEAD = 100
ODD = Misfit(
    at=datetime.fromisoformat("2026-11-01T10:00:00+01:00"),
    kind="sump",
    tray=None,
    value=3.5,
    expected=0.8,
    off_sd=5.0,
    left_out=True,
    entry=9,
    words="The sump on Sun 1 Nov: 3.5 l, where the rest leads to expect 800 ml. Look at entry 9.",
)


def five(middle: float) -> Five:
    """A band of a fifth either way."""
    return Five(*(middle * share for share in SPREAD))


def fan(first: int, last: int, middle: Callable[[int], float]) -> Fan:
    """A series of such bands, a day each."""
    days = range(first, last + 1)
    parts = [tuple(middle(day) * share for day in days) for share in SPREAD]
    return Fan(tuple(map(float, days)), *parts)


def made_up(asked: Asked) -> Outlook:
    """Tray A gives 3 kg in 40 days; the sump is full in 80; one reading of the sump does not fit."""
    now = asked.now
    stack = replay(asked.profile, now)
    trays = [tray.id for tray in stack.trays]
    target = trays[1] if len(trays) > 1 else trays[0]

    def on(days: float) -> datetime:
        return now + timedelta(days=days)

    read = [Point(on(-30), 0.5, "sump", None, 0.4, 5), Point(ODD.at, ODD.value, "sump", None, ODD.off_sd, 9)]
    told = Outlook(
        key=asked.profile.key,
        as_of=now,
        until=on(AHEAD),
        plan=plan_of(stack, history_of(asked.profile, now)),
        used="model",
        rests_on=RestsOn(7, words.rests_on(7), Skill(2, 1, 0.1, 0.2)),
        harvests=(
            Harvest(on(40), on(33), on(47), target, five(3.0), 150.0),
            Harvest(on(95), on(88), on(102), trays[-1], five(2.0), 120.0),
        ),
        finishing=target,
        finishing_kg=five(2.5),
        series={
            "castings": fan(-60, 39, lambda day: 2.5 + day / 80),
            "worms": fan(-120, AHEAD, lambda day: 1.0 + max(0, day) / 200),
            "sump": fan(-120, AHEAD, lambda day: max(0.0, 1.0 + day / 20)),
            **{f"moisture:{tray}": fan(-120, AHEAD, lambda day: 0.7) for tray in trays},
        },
        turns=(on(-20), on(40), on(95)),
        worms_kg=five(1.0),
        sump_l=five(1.0),
        moisture={tray: five(0.7) for tray in trays},
        bottom_tray=trays[0],
        bottom_tray_soaked_on=Days(on(10), on(20), None),
        sump_full_on=Days(on(60), on(80), None),
        dry_bedding_kg=0.4,
        scraps_kg_per_week=five(0.6),
        points=(*read, Point(on(-9), 0.72, "moisture", trays[0], -0.2, 8)),
        past=(
            PastForecast(on(-200), on(-150), trays[0], 2.0, 2.5, 3.0, 2.6, 2.2),
            PastForecast(on(-120), on(-60), target, 2.0, 2.5, 3.0, 3.4, 2.2),
        ),
        does_not_fit=(ODD,),
        narrow_most=NarrowMost("tray", target, 0.3, f"Weigh tray {target}: the band would be narrower."),
    )
    return replace(told, sentences=tuple(words.sentences(told, stack)))


def answered(asked: Asked) -> Answer:
    """The made-up outlook; with a what-if another one beside it, its worms half as many."""
    today = made_up(asked)
    if asked.what is None:
        return Answer(asked, today)
    series = {**today.series, "worms": fan(0, AHEAD, lambda day: 0.5)}
    then = replace(today, series=series, harvests=today.harvests[:1])
    said = asked.what.said(asked.profile.bin.units)
    both = Compared(asked.what, said, today, then, (f"Worms differ with {said}.",), ("Do this.",))
    return Answer(asked, today, both)
