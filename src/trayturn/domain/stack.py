"""The stack as it stands at a moment: what `replay` makes of a journal. Plain, frozen data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from trayturn.domain.day import TurnDay
from trayturn.domain.entries import (
    Checked,
    ContaminantFound,
    Fed,
    FollowUpSet,
    LotBegun,
    MealKept,
    MeasureSet,
    Outcome,
    OversCarried,
    PassDone,
    Settled,
    Stage,
    Step,
    SuppliesUsed,
    TrayStarted,
    WormsRemoved,
)
from trayturn.domain.lives import TrayLife
from trayturn.domain.lots import Found, Lot, Over
from trayturn.domain.problems import Finding
from trayturn.domain.setup import BinSetup
from trayturn.domain.supplies import Supply

DAY = timedelta(days=1)
CameOut = OversCarried | ContaminantFound | LotBegun | WormsRemoved


def days_between(start: datetime, end: datetime) -> float:
    """Days that passed from one moment to another.

    Plain subtraction would not do: two moments of one zone object subtract as wall clocks, and a change of
    the clocks between them would count as time.
    """
    return (end.timestamp() - start.timestamp()) / DAY.total_seconds()


def follow_up_item(entry: FollowUpSet) -> str:
    """The due thing that a follow-up is: `follow_up:too-wet:B`, or `follow_up:too-wet` of the whole bin."""
    return f"follow_up:{entry.code}" + (f":{entry.tray}" if entry.tray else "")


@dataclass(frozen=True, slots=True)
class TrayState:
    """One tray. `level` counts from 1 at the bottom and is None off the stack; masses in kg, ages in days.

    Counts run from the moment the tray was last started with fresh bedding; `meals` are the feedings since.
    """

    id: str
    stage: Stage
    level: int | None
    started_at: datetime
    stage_since: datetime
    days_on_stack: float
    days_in_stage: float
    empty_kg: float
    feedings: int = 0
    scraps_kg: Mapping[str, float] = field(default_factory=dict)
    bedding_kg: Mapping[str, float] = field(default_factory=dict)
    grit_kg: float = 0.0
    water_kg: float = 0.0
    last_fed_at: datetime | None = None
    last_check: Checked | None = None
    last_moisture: Checked | None = None
    gross_kg: float | None = None
    weighed_at: datetime | None = None
    meals: tuple[Fed, ...] = ()

    @property
    def fed_kg(self) -> float:
        """Scraps fed since the tray was started, kg; bedding and grit not counted."""
        return sum(self.scraps_kg.values())

    @property
    def on_stack(self) -> bool:
        return self.level is not None


@dataclass(frozen=True, slots=True)
class StepTimes:
    """One step of a separation as it was done. `ended_at` is None while it runs.

    `rest_minutes` is the length of the rest to follow, where the keeper chose one.
    """

    step: Step
    pass_number: int | None
    started_at: datetime
    ends_at: datetime | None = None
    planned: timedelta | None = None
    ended_at: datetime | None = None
    rest_minutes: float | None = None


@dataclass(frozen=True, slots=True)
class Separation:
    """One separation: its steps, its passes, and what became of the tray. `ended_at` is None under way.

    `came_out` is what else was written of the tray meanwhile, in order: pieces carried on, what does not
    belong, worms moved, lots begun.
    """

    tray: str
    begun_at: datetime
    came_from_level: int | None
    steps: tuple[StepTimes, ...] = ()
    passes: tuple[PassDone, ...] = ()
    gross_kg: float | None = None
    settled: Settled | None = None
    ended_at: datetime | None = None
    outcome: Outcome | None = None
    came_out: tuple[CameOut, ...] = ()

    @property
    def step(self) -> StepTimes | None:
        """The step under way, if one is."""
        return self.steps[-1] if self.steps and self.steps[-1].ended_at is None else None

    @property
    def pass_number(self) -> int:
        """The pass under way or last done, counted from 1."""
        return max((step.pass_number or 0 for step in self.steps), default=0) or 1

    @property
    def skimmed_kg(self) -> float:
        return sum(done.skimmed_kg or 0.0 for done in self.passes)


@dataclass(frozen=True, slots=True)
class Sump:
    """The sump as last looked at."""

    volume_l: float | None = None
    checked_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Harvest:
    """Castings that left a tray, kg."""

    tray: str
    at: datetime
    castings_kg: float


@dataclass(frozen=True, slots=True)
class Stack:
    """A bin at a moment. `trays` run from the bottom up; `off_stack` holds the spare ones used before.

    `listed_trays` are the ids in the profile's own list of trays, used yet or not. `follow_ups` are those
    still open, `snoozed` and `done` the moments until which due things are put off or done, all by item;
    `caddy_kg` are the scraps that wait, since `caddy_at`; `smelled` is the last check that named a smell. The
    last feedings, started trays and other uses of supplies are a few of the latest, oldest first.
    `left_out_at` is the turn that brought no fresh tray in for want of bedding, until a tray is started.
    `lives` are those of trays that were separated and emptied, in the order in which they ended.
    `overs` are pieces that lie in trays now, `overs_gone` those that went; `found` is what did not belong in
    the bin, and `sources_stopped` since when which source of it, by folded name, is said to be closed.
    """

    key: str
    setup: BinSetup
    as_of: datetime
    trays: tuple[TrayState, ...] = ()
    off_stack: tuple[TrayState, ...] = ()
    sump: Sump = Sump()
    separations: tuple[Separation, ...] = ()
    past_separations: tuple[Separation, ...] = ()
    lives: tuple[TrayLife, ...] = ()
    harvests: tuple[Harvest, ...] = ()
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
    supplies_kg: Mapping[str, float] = field(default_factory=dict)
    supplies_counted_at: datetime | None = None
    supplies: tuple[Supply, ...] = ()
    last_feedings: tuple[Fed, ...] = ()
    last_starts: tuple[TrayStarted, ...] = ()
    last_uses: tuple[SuppliesUsed, ...] = ()
    left_out_at: datetime | None = None
    cautions_read: Mapping[str, datetime] = field(default_factory=dict)
    follow_ups: Mapping[str, FollowUpSet] = field(default_factory=dict)
    snoozed: Mapping[str, datetime] = field(default_factory=dict)
    done: Mapping[str, datetime] = field(default_factory=dict)
    measures: tuple[MeasureSet, ...] = ()
    meals: tuple[MealKept, ...] = ()
    caddy_kg: Mapping[str, float] = field(default_factory=dict)
    caddy_at: datetime | None = None
    turn_day: TurnDay | None = None
    past_turn_days: tuple[TurnDay, ...] = ()
    overs: tuple[Over, ...] = ()
    overs_gone: tuple[Over, ...] = ()
    found: tuple[Found, ...] = ()
    sources_stopped: Mapping[str, datetime] = field(default_factory=dict)
    lots: tuple[Lot, ...] = ()
    findings: tuple[Finding, ...] = ()
    listed_trays: tuple[str, ...] = ()

    def tray(self, tray_id: str) -> TrayState | None:
        """The tray of that id, on the stack or off it."""
        return next((t for t in (*self.trays, *self.off_stack) if t.id == tray_id), None)

    def in_stage(self, stage: Stage) -> tuple[TrayState, ...]:
        """Trays on the stack in that stage, bottom first."""
        return tuple(tray for tray in self.trays if tray.stage is stage)

    def lot(self, code: str) -> Lot | None:
        """The lot of castings of that code, in whatever case."""
        return next((lot for lot in self.lots if lot.code.casefold() == code.casefold()), None)

    def separation(self, tray_id: str) -> Separation | None:
        """The separation of that tray that is under way, if one is."""
        return next((s for s in self.separations if s.tray == tray_id), None)

    @property
    def began_at(self) -> datetime | None:
        """When the bin began: as the setup says, or with its first tray."""
        return self.setup.began or self.first_tray_at
