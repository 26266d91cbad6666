"""A keeper's journal written from a known truth: what was done by a plan, what was measured by one set of
rates, through the same file that any keeper writes."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

from tests.builders import a_profile, entry, fed, moment, started
from trayturn.advice.outlook.ahead import planned
from trayturn.advice.outlook.history import history_of
from trayturn.advice.outlook.plan import plan_of
from trayturn.advice.outlook.result import Plan
from trayturn.domain.entries import Entry, Settled
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay
from trayturn.science.process.events import Drive
from trayturn.science.process.outcome import Run
from trayturn.science.process.rates import Rates, draw_rates
from trayturn.science.process.running import run

MIX = {"cabbage": 0.5, "apple": 0.3, "coffee grounds": 0.2}


def begun(**setup: Any) -> Profile:
    """Three trays, a kilogram of worms and a first meal."""
    return a_profile(
        started("C", 0, water_kg=0.5),
        started("B", 0, water_kg=0.5),
        started("A", 0, level=3, stage="feeding", water_kg=1.0),
        entry("worms_added", 0, worms_kg=1.0),
        entry("checked", 0, temperature_c=20.0),
        fed("A", 1, {"cabbage": 0.8}, bedding_kg={"shredded cardboard": 0.1}),
        trays="ABC",
        tray_count=3,
        **setup,
    )


def usual_plan(**changes: Any) -> Plan:
    """0.8 kg of scraps a week every 10 days, turned every 60."""
    profile = begun()
    plan = plan_of(replay(profile, moment(2)), history_of(profile, moment(2)))
    usual = replace(
        plan, mix=MIX, scraps_kg_per_week=0.8, feed_every_days=10.0, turn_every_days=60.0, bedding_ratio=0.15
    )
    return replace(usual, **changes)


@cache
def kept(days: int) -> Profile:
    """That bin kept by the plan for so many days, nothing measured but the first temperature."""
    profile = begun()
    history = history_of(profile, moment(2))
    return replace(
        planned(profile, history, usual_plan(), days), key="pantry", bin=profile.bin, trays=profile.trays
    )


def truth(seed: int) -> Rates:
    """One set of rates, as true as any that the model begins with."""
    return draw_rates(1, seed, first=seed)


def lived(profile: Profile, days: int, rates: Rates) -> Run:
    """What happened in that bin if those rates are true."""
    history = history_of(profile, moment(days, 23))
    drive: Drive = history.drive
    return run(drive, rates, ("tray_kg", "moisture"))


def measured(days: int, rates: Rates, weigh: bool = True) -> Profile:
    """The kept bin, its castings weighed and the fed tray weighed and felt in the middle of each turn."""
    profile, ran = kept(days), lived(kept(days), days, rates)
    harvests = {(one.tray, round(one.day)): float(one.kg[0]) for one in ran.harvests}
    calendar = history_of(profile, moment(days, 23)).calendar
    journal: list[Entry] = []
    for one in profile.journal:
        if isinstance(one, Settled):
            kg = harvests[one.tray, round(calendar.day(one.at))]
            journal.append(one.model_copy(update={"castings_kg": round(kg, 2)}))
        else:
            journal.append(one)
    if weigh:
        journal += [*_checks(profile, days, ran)]
    return replace(profile, journal=tuple(sorted(journal, key=lambda one: one.at)))


def _checks(profile: Profile, days: int, ran: Run) -> list[Entry]:
    found: list[Entry] = []
    for day in range(30, days, 60):
        tray = replay(profile, moment(day, 9)).trays[-1].id
        row = ran.trays.index(tray)
        gross = float(ran.series["tray_kg"][day, row, 0]) + profile.empty_kg(tray)
        moist = float(ran.series["moisture"][day, row, 0])
        when = moment(day, 9)
        reading = {"tray": tray, "gross_kg": round(gross, 2), "moisture_pct": round(100 * moist, 0)}
        found.append(entry("checked", when, **reading))
    return found
