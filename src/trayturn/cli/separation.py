"""`separation`: where the separations of a bin are, the text twin of the separation screen."""

from __future__ import annotations

from argparse import Namespace

from trayturn.advice.came_out import came_out_lines
from trayturn.advice.passes import advised_to_stop, ahead, ahead_words, next_time
from trayturn.advice.pieces import known_overs, piece_told, survived
from trayturn.cli import as_json
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_bin, readable, stack_asked
from trayturn.cli.separation_data import ahead_data, separation_data
from trayturn.clock import Clock
from trayturn.domain.entries import Step
from trayturn.domain.profile import Profile
from trayturn.domain.stack import Separation, Stack
from trayturn.domain.words import day
from trayturn.procedure.stepper import time_words, view
from trayturn.procedure.summary import pass_lines, whole_summary


def separation(options: Namespace, clock: Clock) -> int:
    """Print each separation under way, or how the last one ended."""
    loaded = open_bin(options)
    profile = readable(loaded)
    now = stack_asked(options, profile, clock())
    if options.json:
        as_json.print_json(_data(now))
    else:
        _print(now, profile, Page(options.ascii))
    return 0


def _data(now: Stack) -> as_json.Data:
    return {
        "bin": now.key,
        "name": now.setup.name,
        "as_of": as_json.moment(now.as_of),
        "separations": [separation_data(now, one) for one in now.separations],
        "past_separations": [separation_data(now, one) for one in now.past_separations],
        "next_time": ahead_data(next_time(now)),
    }


def _print(now: Stack, profile: Profile, page: Page) -> None:
    name = now.setup.name
    if not now.separations:
        page.line(f"No separation is under way in {name}.")
        for past in now.past_separations[-1:]:
            page.line(f"The last one, {day(past.begun_at, now.as_of)}:")
            page.lines([*whole_summary(now, past), *pass_lines(past, now.setup.units)], 2, 2)
    for number, one in enumerate(now.separations):
        if number:
            page.line()
        page.line(f"{name}, tray {one.tray}: separation begun {day(one.begun_at, now.as_of)}")
        page.lines(_state(one, now, profile), 2, 2)


def _state(one: Separation, now: Stack, profile: Profile) -> list[str]:
    """The step, what to do, the time, and the passes behind."""
    shown = view(one, now.as_of)
    if shown is None:
        return ["No step is under way. Open the screens to go on.", *pass_lines(one, now.setup.units)]
    lines = [f"{shown.place}: {shown.title.lower()}", shown.to_do, _sentence(time_words(shown, now.as_of))]
    if shown.step is Step.DECIDE:
        stop, why = advised_to_stop(one, profile.empty_kg(one.tray))
        lines.append(f"{why} {'Stop here.' if stop else 'One more pass is worth it.'}")
    lines += ahead_words(ahead(now, one), shown.step)
    return [
        *lines,
        *_known(now, one),
        *came_out_lines(now, one),
        *pass_lines(one, now.setup.units),
    ]


def _known(now: Stack, one: Separation) -> list[str]:
    """Pieces carried into the tray before, to look out for."""
    overs = known_overs(now, one.tray)
    told = [f"{piece_told(over, now.setup.units)}, {survived(over)}" for over in overs]
    return [f"Known to lie in it: {'; '.join(told)}."] if told else []


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."
