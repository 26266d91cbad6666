"""The working page of a replay: what the fold has gathered so far. Mutable, and seen by the fold alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from trayturn.domain.day import TurnDay
from trayturn.domain.entries import (
    Checked,
    Entry,
    Fed,
    FollowUpSet,
    MealKept,
    MeasureSet,
    Stage,
    TrayStarted,
    name_entry,
)
from trayturn.domain.lives import TrayLife
from trayturn.domain.lots import Found, Lot, Over
from trayturn.domain.problems import Finding, Severity
from trayturn.domain.profile import Profile
from trayturn.domain.stack import Harvest, Separation, Sump, TrayState, days_between
from trayturn.domain.supplies import Stores

WRONG_TRAY = "Correct the tray or date."


def pour(store: dict[str, float], masses: Mapping[str, float]) -> None:
    """Add masses to a store by name, kg."""
    for name, kg in masses.items():
        store[name] = store.get(name, 0.0) + kg


@dataclass(slots=True)
class TrayRecord:
    """One tray while the journal is read."""

    id: str
    stage: Stage
    started_at: datetime
    stage_since: datetime
    feedings: int = 0
    scraps_kg: dict[str, float] = field(default_factory=dict)
    bedding_kg: dict[str, float] = field(default_factory=dict)
    grit_kg: float = 0.0
    water_kg: float = 0.0
    last_fed_at: datetime | None = None
    last_check: Checked | None = None
    last_moisture: Checked | None = None
    gross_kg: float | None = None
    weighed_at: datetime | None = None
    meals: list[Fed] = field(default_factory=list)
    start: TrayStarted | None = None
    separations: list[Separation] = field(default_factory=list)

    def enter(self, stage: Stage, at: datetime) -> None:
        """Move the tray to a stage; staying in one keeps its age there."""
        if stage is not self.stage:
            self.stage, self.stage_since = stage, at

    def state(self, level: int | None, empty_kg: float, as_of: datetime) -> TrayState:
        """The record as frozen data, with its ages at a moment."""
        return TrayState(
            id=self.id,
            stage=self.stage,
            level=level,
            started_at=self.started_at,
            stage_since=self.stage_since,
            days_on_stack=days_between(self.started_at, as_of),
            days_in_stage=days_between(self.stage_since, as_of),
            empty_kg=empty_kg,
            feedings=self.feedings,
            scraps_kg=dict(self.scraps_kg),
            bedding_kg=dict(self.bedding_kg),
            grit_kg=self.grit_kg,
            water_kg=self.water_kg,
            last_fed_at=self.last_fed_at,
            last_check=self.last_check,
            last_moisture=self.last_moisture,
            gross_kg=self.gross_kg,
            weighed_at=self.weighed_at,
            meals=tuple(self.meals),
        )

    def life(self, ended_at: datetime) -> TrayLife:
        """The life that ends at that moment, frozen."""
        return TrayLife(
            tray=self.id,
            started_at=self.started_at,
            ended_at=ended_at,
            start=self.start,
            meals=tuple(self.meals),
            scraps_kg=dict(self.scraps_kg),
            bedding_kg=dict(self.bedding_kg),
            grit_kg=self.grit_kg,
            water_kg=self.water_kg,
            last_moisture=self.last_moisture,
            gross_kg=self.gross_kg,
            weighed_at=self.weighed_at,
            separations=tuple(self.separations),
        )


@dataclass(slots=True)
class Ledger:
    """The bin while its journal is read. `order` holds tray ids on the stack, bottom first."""

    profile: Profile
    known_trays: frozenset[str]
    order: list[str] = field(default_factory=list)
    trays: dict[str, TrayRecord] = field(default_factory=dict)
    separations: dict[str, Separation] = field(default_factory=dict)
    past_separations: list[Separation] = field(default_factory=list)
    lives: list[TrayLife] = field(default_factory=list)
    harvests: list[Harvest] = field(default_factory=list)
    sump: Sump = field(default_factory=Sump)
    first_tray_at: datetime | None = None
    last_turn_at: datetime | None = None
    turns: int = 0
    last_fed_at: datetime | None = None
    last_check_at: datetime | None = None
    temperature_c: float | None = None
    temperature_at: datetime | None = None
    smelled: Checked | None = None
    worms_kg: float | None = None
    first_worms_at: datetime | None = None
    stores: Stores = field(default_factory=Stores)
    supplies_counted_at: datetime | None = None
    left_out_at: datetime | None = None
    cautions_read: dict[str, datetime] = field(default_factory=dict)
    follow_ups: dict[str, FollowUpSet] = field(default_factory=dict)
    snoozed: dict[str, datetime] = field(default_factory=dict)
    done: dict[str, datetime] = field(default_factory=dict)
    measures: dict[tuple[str, str], MeasureSet] = field(default_factory=dict)
    meals: dict[str, MealKept] = field(default_factory=dict)
    caddy_kg: dict[str, float] = field(default_factory=dict)
    caddy_at: datetime | None = None
    turn_day: TurnDay | None = None
    past_turn_days: list[TurnDay] = field(default_factory=list)
    overs: dict[tuple[str, str], Over] = field(default_factory=dict)
    overs_gone: list[Over] = field(default_factory=list)
    found: list[Found] = field(default_factory=list)
    sources_stopped: dict[str, datetime] = field(default_factory=dict)
    lots: dict[str, Lot] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    index: int = 0
    entry: Entry | None = None

    def find(self, code: str, what: str, to_do: str = "", severity: Severity = Severity.ERROR) -> None:
        """Note that the entry being read does not add up."""
        where = f"entry {self.index} ({name_entry(self.entry)})" if self.entry else ""
        self.findings.append(Finding(severity, code, what, to_do, where, self.index or None))

    def record(self, tray_id: str, at: datetime) -> TrayRecord:
        """The tray's record, opened as spare when the journal names a tray it never started."""
        if tray_id not in self.trays:
            self.trays[tray_id] = TrayRecord(tray_id, Stage.SPARE, at, at)
        return self.trays[tray_id]

    def open(self, tray: TrayRecord) -> None:
        """A tray begins, or begins again, with fresh bedding: what it held before is forgotten."""
        self.trays[tray.id] = tray
        self.first_tray_at = self.first_tray_at or tray.started_at

    def find_short(self, short: Iterable[tuple[str, float, float]]) -> None:
        """Note what was used though less of it was in stock: by name, what was used and held, kg."""
        for name, kg, held in short:
            self.find(
                "more-used-than-stocked",
                f"{kg:g} kg of {name} was used and {held:g} kg was in stock.",
                "Add what came in, or correct the mass.",
                Severity.WARNING,
            )

    def on_stack(self, tray_id: str) -> bool:
        return tray_id in self.order

    def take_off(self, tray_id: str, at: datetime) -> None:
        """The tray leaves the stack and is spare."""
        if tray_id in self.order:
            self.order.remove(tray_id)
        self.record(tray_id, at).enter(Stage.SPARE, at)
