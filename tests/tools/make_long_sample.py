"""Write sample_profiles/stairwell.toml: fourteen months of an invented four-tray stack.

    python -m tests.tools.make_long_sample

The keeper, the house and every reading are made up. Amounts follow common practice, no source: about 1.5 kg
of scraps with 0.1 to 0.15 kg of dry bedding every 12 days or so, 0.5 kg of dry shreds to start a tray, and
about 4.5 kg of castings from a tray after five feedings and a turn to finish. The same seed gives the same
bytes on every Python: only `random()` is drawn from, the one method whose sequence Python promises to keep.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta
from math import fsum
from pathlib import Path

from tests.tools.draw import Draw
from tests.tools.stairwell_castings import AFTERWARDS, LOTS, PIECES, STRANGE, TUB, Thing
from tests.tools.stairwell_life import (
    AWAY,
    BEGAN,
    CAUTIONS,
    COMMENTS,
    EMPTY,
    FINDS,
    HEADER,
    HEAT,
    LAST_DAY,
    REMARKS,
    SCRAPS,
    TURNS,
    WRITTEN,
)
from tests.tools.toml_text import Row, row_text
from tests.tools.zone import at

TARGET = Path(__file__).parents[2] / "sample_profiles" / "stairwell.toml"
SEED = 34
SHREDS = "shredded cardboard"
LOOSEN, REST = timedelta(minutes=3.5), timedelta(minutes=15)
SOLIDS_IN_SCRAPS, SOLIDS_IN_BEDDING = 0.15, 0.92
SOLIDS_KEPT, SOLIDS_IN_CASTINGS, SHARE_SKIMMED = 0.66, 0.26, 0.83


class Diary:
    """The journal as it grows, and what the next entry rests on: the stock, and what each tray was given."""

    def __init__(self, draw: Draw) -> None:
        self.draw = draw
        self.rows: list[Row] = []
        self.stock = {SHREDS: 0.0, "grit": 0.0}
        self.solids: dict[str, float] = {}
        self.moisture = 74.0

    def write(self, kind: str, when: datetime, **fields: object) -> None:
        self.rows.append({"at": when, "kind": kind, **fields})

    def take(self, name: str, kg: float, when: datetime) -> None:
        """Draw on the stock; before it runs low the keeper fetches more, a little earlier that day."""
        if self.stock[name] - kg < 0.1:
            fetched = 2.5 if name == SHREDS else 0.3
            self.write("supplies_added", when - timedelta(minutes=25), supplies_kg={name: fetched})
            self.stock[name] += fetched
        self.stock[name] -= kg

    def start_tray(self, tray: str, when: datetime, **fields: object) -> None:
        self.take(SHREDS, 0.5, when)
        self.write("tray_started", when, tray=tray, **fields, bedding_kg={SHREDS: 0.5})
        self.solids[tray] = 0.5 * SOLIDS_IN_BEDDING

    def feed(self, tray: str, day: date, number: int, light: float) -> None:
        """A feeding in the evening; the second of each tray brings the grit."""
        when = at(day, 18, self.draw.whole(0, 55))
        total = self.draw.kilograms(1.35, 1.65) * light * (0.92 if HEAT[day.month] < 14 else 1)
        names = ["coffee grounds", *self.draw.some(SCRAPS[day.month], 4)]
        items = dict(zip(names, self.draw.split(round(total, 2), len(names)), strict=True))
        bedding = self.draw.kilograms(0.1, 0.15)
        grit = {"grit_kg": 0.03} if number == 2 else {}
        if grit:
            self.write("cautions_read", when - timedelta(minutes=4), work="grit", codes=CAUTIONS["grit"])
            self.take("grit", 0.03, when)
        self.take(SHREDS, bedding, when)
        remark = {"note": REMARKS[day.month]} if number == 4 else {}
        self.write("fed", when, tray=tray, **grit, **remark, items_kg=items, bedding_kg={SHREDS: bedding})
        self.solids[tray] += total * SOLIDS_IN_SCRAPS + bedding * SOLIDS_IN_BEDDING
        self.moisture += 1.3

    def check(self, tray: str, day: date, drier: float = 0.0) -> None:
        """A look under the lid: some days every reading, some days only what caught the eye."""
        draw = self.draw
        self.moisture = min(83.0, max(69.0, self.moisture + draw.between(-2.4, 1.6)))
        reading = self.moisture - drier
        felt = "wet" if reading > 80 else "moist" if reading > 71 else "damp"
        damp = {"moisture_pct": float(round(reading))} if draw.chance(0.7) else {"feel": felt}
        extra: Row = {}
        if draw.chance(0.25):
            extra["smell"] = "earthy"
        if draw.chance(0.6):
            nearly_dry = 0.05 if draw.chance(0.5) else 0.0
            extra["sump_l"] = round(draw.between(0.2, 0.6), 1) if draw.chance(0.15) else nearly_dry
        if draw.chance(0.3):
            extra["strays"] = "few" if draw.chance(0.3) else "none"
        when = at(day, 8, draw.whole(5, 55))
        self.write("checked", when, tray=tray, **damp, temperature_c=heat_on(day, draw), **extra)


def heat_on(day: date, draw: Draw) -> float:
    """Degrees C in the tray, to the half degree: led over from one month to the next, and some chance."""
    following = (day.replace(day=28) + timedelta(days=4)).month
    lean = day.day / 31
    mean = HEAT[day.month] * (1 - lean) + HEAT[following] * lean
    return min(26.0, max(12.0, round(2 * (mean + draw.between(-0.9, 0.9))) / 2))


class Guided:
    """A separation led step by step, with the entries that such a session leaves."""

    def __init__(self, diary: Diary, tray: str, now: datetime) -> None:
        self.diary, self.tray, self.now = diary, tray, now
        self.open: Row | None = None

    def write(self, kind: str, **fields: object) -> None:
        self.diary.write(kind, self.now, tray=self.tray, **fields)

    def end(self) -> None:
        if self.open is not None:
            self.write("step_ended", **self.open)

    def step(self, name: str, number: int | None = None, lasts: timedelta | None = None) -> None:
        """The step before ends, this one begins."""
        self.end()
        self.open = {"step": name} | ({"pass_number": number} if number else {})
        self.write("step_started", **self.open, **({"ends_at": self.now + lasts} if lasts else {}))

    def spend(self, low: float, high: float) -> None:
        """Let some minutes pass, to the second."""
        self.now += timedelta(seconds=self.diary.draw.whole(int(low * 60), int(high * 60)))

    def one_pass(
        self, number: int, worms: str, skimmed: float, longer: int, found: Row, strange: Iterable[Thing]
    ) -> None:
        self.step("loosen", number, LOOSEN)
        self.spend(3.5, 3.9)
        self.step("rest", number, REST)
        if longer:
            self.spend(9, 11)
            moved = self.now + timedelta(minutes=longer)
            self.write("deadline_moved", ends_at=moved)
            self.now = moved
        else:
            self.spend(15.1, 17)
        self.step("skim", number)
        self.spend(3, 6)
        self.write("pass_done", pass_number=number, worms_seen=worms, skimmed_kg=skimmed, **found)
        for what, count, source, said in strange:
            thing = {"what": what, "count": count, "source": source, "tray": self.tray}
            self.diary.write("contaminant_found", self.now, **thing, **({"note": said} if said else {}))
        self.step("decide", number)
        self.spend(0.3, 1)


def separate(diary: Diary, tray: str, below: str, day: date, passes: int) -> datetime:
    """The whole separation of a finished tray, one morning. Gives the moment it was over."""
    draw, (longer, said), pieces = diary.draw, FINDS[day], PIECES.get(day, ())
    found: Row = ({"pieces": list(pieces)} if pieces else {}) | said
    held = diary.solids[tray] * SOLIDS_KEPT / SOLIDS_IN_CASTINGS * draw.between(0.93, 1.07)
    skims = sorted(draw.split(round(held * SHARE_SKIMMED, 2), passes), reverse=True)
    work = Guided(diary, tray, at(day, 9, draw.whole(10, 50)))
    work.write("separation_begun")
    work.step("get_ready")
    work.spend(6, 11)
    work.write("checked", gross_kg=round(EMPTY.get(tray, 0.9) + held, 1))
    diary.write("cautions_read", work.now, work="separation", codes=CAUTIONS["separation"])
    for number, skimmed in enumerate(skims, 1):
        last = number == passes
        worms = "many" if last else "none" if number == 1 else "few"
        came = (found, STRANGE.get(day, ())) if last else ({}, ())
        work.one_pass(number, worms, skimmed, longer if number == 2 else 0, *came)
    work.step("settle")
    work.spend(6, 12)
    places = {"worms_to": f"tray {below}", "rest_to": f"tray {below}", "overs_to": f"tray {below}"}
    castings = round(fsum(skims), 2)
    work.write("settled", castings_kg=castings, **places)
    if pieces:
        work.write("overs_carried", to=below, pieces=list(pieces))
    lot = {"lot": LOTS[day], "tray": tray, "kg": castings, "stage": "hatching", "place": TUB}
    diary.write("lot_begun", work.now, **lot)
    work.step("clean_up")
    work.spend(7, 14)
    work.end()
    work.write("separation_ended", outcome="finished")
    return work.now


def feeding_days(first: date, end: date, draw: Draw) -> list[date]:
    """Up to five days of feeding between two turns, the last with a week to spare; none while away."""
    days: list[date] = []
    day = first + timedelta(days=2)
    while len(days) < 5 and day <= end - timedelta(days=7):
        while any(start <= day <= back for start, back in AWAY):
            day += timedelta(days=1)
        days.append(day)
        day += timedelta(days=draw.whole(10, 13))
    return days


def live(diary: Diary) -> None:
    """From the first tray to the last look, turn by turn."""
    began = at(BEGAN, 15, 0)
    diary.write("supplies_added", began, supplies_kg={SHREDS: 3.0, "grit": 0.25})
    diary.stock = {SHREDS: 3.0, "grit": 0.25}
    diary.start_tray("A", began + timedelta(minutes=20), water_kg=0.9, stage="feeding")
    settling = began + timedelta(minutes=24)
    diary.write("worms_added", settling, worms_kg=1.2, tray="A", source="a keeper two streets away")
    for tray in "BC":
        diary.start_tray(tray, began + timedelta(minutes=30))
    order, feeding = ["C", "B", "A"], "A"
    starts = [BEGAN, *TURNS]
    for place, (first, end) in enumerate(zip(starts, [*TURNS, LAST_DAY], strict=True)):
        if place:
            order, feeding = turn(diary, order, feeding, first)
        for number, day in enumerate(feeding_days(first, end, diary.draw), 1):
            diary.feed(feeding, day, number, light=min(1.0, 0.3 + 0.2 * number) if not place else 1.0)
        look_in(diary, order, first, end)


def turn(diary: Diary, order: list[str], feeding: str, day: date) -> tuple[list[str], str]:
    """The finishing tray is separated and comes back below as fresh bedding; the oldest bedding goes up.

    The first turn has nothing to separate yet: the fourth tray joins.
    """
    resting = [tray for tray in order if tray != feeding]
    if len(order) == 3:
        fresh, now = "D", at(day, 10, 20)
    else:
        fresh = resting.pop()
        done = separate(diary, fresh, feeding, day, passes=TURNS[day])
        now = done + timedelta(minutes=diary.draw.whole(9, 20))
    oldest = resting.pop()
    after = [fresh, *resting, feeding, oldest]
    diary.start_tray(fresh, now)
    diary.moisture = diary.draw.between(70, 74)
    diary.write("turned", now, order=after, stages={feeding: "finishing", oldest: "feeding"})
    return after, oldest


def look_in(diary: Diary, order: list[str], first: date, end: date) -> None:
    """A check a week or so, but not while away or on turn day; now and then of the tray below the one fed."""
    *_, below, top = order
    day, looks = first + timedelta(days=diary.draw.whole(5, 8)), 0
    while day < end:
        away = any(start <= day <= back for start, back in AWAY)
        if not away and not diary.draw.chance(0.1):
            looks += 1
            lower = len(order) > 3 and looks % 4 == 0
            diary.check(below if lower else top, day, drier=4.0 if lower else 0.0)
        day += timedelta(days=diary.draw.whole(6, 9))


def make_text() -> str:
    """The whole file."""
    diary = Diary(Draw(SEED))
    live(diary)
    rows = sorted([*diary.rows, *WRITTEN, *AFTERWARDS], key=lambda row: row["at"])
    said = dict(COMMENTS)
    above = [said.pop(f"{row['at']:%Y-%m-%d %H:%M}", "") for row in rows]
    return HEADER + "".join(f"\n{words}{row_text(row)}" for words, row in zip(above, rows, strict=True))


if __name__ == "__main__":
    TARGET.write_text(make_text(), encoding="utf-8", newline="\n")
    print(f"{TARGET.name} written")
