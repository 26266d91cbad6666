"""One pair of hands and several trays: the order of work in which all is done soonest.

Each tray is a chain of tasks that need hands, each with a rest after it in which the tray must be left alone:
loosen, rest, skim, loosen, rest, skim, settle. This is one machine with chains and minimum time lags, which
in general has no quick exact method; so all interleavings are searched by branch and bound, as far as a
number of steps allows, from a good first plan. What comes back says whether the best is proved.

A schedule in which each task starts as soon as its order allows (semi-active) is among the best, so searching
the orders is enough (Baker & Trietsch, Principles of Sequencing and Scheduling; from memory, and checked here
against trying every order).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trayturn.science.errors import OutOfRange, within

MOST_STEPS = 20_000
"""How many steps the search takes before it stops with the best plan so far. Engineering choice."""
SOON = 1e-9


@dataclass(frozen=True, slots=True)
class Task:
    """Work that needs hands for so long, and the rest after it before the next task of its tray. Minutes."""

    name: str
    hands: float
    rest: float = 0.0

    def __post_init__(self) -> None:
        within(self.hands, f"The time of {self.name}", 0, 10_000, "minutes")
        within(self.rest, f"The rest after {self.name}", 0, 10_000, "minutes")


@dataclass(frozen=True, slots=True)
class Chain:
    """One tray's tasks, in order. The first may start at `ready`, minutes from now."""

    name: str
    tasks: tuple[Task, ...]
    ready: float = 0.0


@dataclass(frozen=True, slots=True)
class Slot:
    """One task in its place: minutes from now, and until when the tray rests after it."""

    chain: str
    place: int
    task: Task
    start: float
    end: float
    rest_until: float


@dataclass(frozen=True, slots=True)
class Schedule:
    """All tasks in the order of their starts. `bound` is a time no plan beats; `proved`: none ends sooner."""

    slots: tuple[Slot, ...]
    done: float
    bound: float
    proved: bool

    @property
    def hands(self) -> float:
        """Minutes of work in it; the others are free."""
        return sum(slot.task.hands for slot in self.slots)


def schedule(chains: Sequence[Chain], free: float = 0.0, most_steps: int = MOST_STEPS) -> Schedule:
    """The order of work that ends soonest, from the moment hands are `free`.

    Raises `OutOfRange` for two chains of one name.
    """
    names = [chain.name for chain in chains]
    if len(set(names)) != len(names):
        raise OutOfRange("Two trays of one name cannot be told apart.")
    search = _Search(chains, most_steps)
    start = _State(free, tuple(chain.ready for chain in chains), (0,) * len(chains), ())
    bound = search.bound(start)
    search.explore(start)
    slots = search.slots(search.best_order, free)
    done = max((slot.rest_until for slot in slots), default=free)
    return Schedule(slots, done, bound, not search.cut_short or done <= bound + SOON)


@dataclass(frozen=True, slots=True)
class _State:
    """Where a search stands: when hands are free, each chain's next start and place, and the order so far."""

    free: float
    ready: tuple[float, ...]
    places: tuple[int, ...]
    order: tuple[int, ...]


class _Search:
    """Depth first, the most promising task first, leaving out what cannot beat the best or was seen."""

    def __init__(self, chains: Sequence[Chain], most_steps: int) -> None:
        self.chains, self.steps_left = chains, most_steps
        self.tails = [_tails(chain.tasks) for chain in chains]
        self.work = [_work(chain.tasks) for chain in chains]
        self.total = sum(len(chain.tasks) for chain in chains)
        self.best = float("inf")
        self.best_order: tuple[int, ...] = ()
        self.cut_short = False
        self._seen: dict[tuple[object, ...], list[tuple[float, ...]]] = {}

    def bound(self, state: _State) -> float:
        """No plan from here ends before this: by each chain alone, and by all the work there is."""
        alone = [
            max(state.ready[n], state.free if state.places[n] < len(self.tails[n]) - 1 else 0.0)
            + self.tails[n][state.places[n]]
            for n in range(len(self.chains))
        ]
        left = [n for n in range(len(self.chains)) if state.places[n] < len(self.chains[n].tasks)]
        hands = sum(self.work[n][state.places[n]] for n in left)
        first = max(state.free, min((state.ready[n] for n in left), default=state.free))
        last_rest = min((self.chains[n].tasks[-1].rest for n in left), default=0.0)
        return max([*alone, first + hands + last_rest if left else state.free])

    def explore(self, state: _State) -> None:
        """Try every order from here on, the likeliest first."""
        if len(state.order) == self.total:
            done = max([state.free, *state.ready])
            if done < self.best - SOON:
                self.best, self.best_order = done, state.order
            return
        for n in self._choices(state):
            if self.steps_left <= 0 and self.best_order:
                self.cut_short = True
                return
            self.steps_left -= 1
            following = self._after(state, n)
            if self.bound(following) < self.best - SOON and not self._dominated(following):
                self.explore(following)

    def _choices(self, state: _State) -> list[int]:
        """The chains with work left: what can start first, and of those the longest way to go."""
        left = [n for n in range(len(self.chains)) if state.places[n] < len(self.chains[n].tasks)]
        return sorted(
            left, key=lambda n: (max(state.free, state.ready[n]), -self.tails[n][state.places[n]], n)
        )

    def _after(self, state: _State, n: int) -> _State:
        task = self.chains[n].tasks[state.places[n]]
        end = max(state.free, state.ready[n]) + task.hands
        ready = (*state.ready[:n], end + task.rest, *state.ready[n + 1 :])
        places = (*state.places[:n], state.places[n] + 1, *state.places[n + 1 :])
        return _State(end, ready, places, (*state.order, n))

    def _dominated(self, state: _State) -> bool:
        """Whether the same tasks were done before with nothing later. Trays alike count as one another."""
        trays = sorted(
            zip((chain.tasks for chain in self.chains), state.places, state.ready, strict=True),
            key=lambda tray: (hash(tray[0]), tray[1], tray[2]),
        )
        key = tuple((tasks, place) for tasks, place, _ in trays)
        times = (state.free, *(max(ready, state.free) for _, _, ready in trays))
        known = self._seen.setdefault(key, [])
        if any(all(a <= b + SOON for a, b in zip(one, times, strict=True)) for one in known):
            return True
        known.append(times)
        return False

    def slots(self, order: Sequence[int], free: float) -> tuple[Slot, ...]:
        """The tasks of an order, each as soon as it can start."""
        places = [0] * len(self.chains)
        ready = [chain.ready for chain in self.chains]
        made = []
        for n in order:
            task = self.chains[n].tasks[places[n]]
            start = max(free, ready[n])
            free = start + task.hands
            ready[n] = free + task.rest
            made.append(Slot(self.chains[n].name, places[n], task, start, free, ready[n]))
            places[n] += 1
        return tuple(made)


def _tails(tasks: Sequence[Task]) -> list[float]:
    """Minutes from the start of each task to the end of its chain, and nothing after the last."""
    tails = [0.0]
    for task in reversed(tasks):
        tails.append(tails[-1] + task.hands + task.rest)
    return tails[::-1]


def _work(tasks: Sequence[Task]) -> list[float]:
    """Minutes of hands from each task to the end of its chain."""
    left = [0.0]
    for task in reversed(tasks):
        left.append(left[-1] + task.hands)
    return left[::-1]
