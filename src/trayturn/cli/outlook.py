"""`outlook` and `score`: what a bin will give and need, and how such forecasts have done."""

from __future__ import annotations

from argparse import Namespace

from trayturn.advice.outlook.history import history_of
from trayturn.advice.outlook.making import DAYS, DRAWS, LONGEST_DAYS, outlook
from trayturn.advice.outlook.plan import plan_words
from trayturn.advice.outlook.result import Outlook, PastForecast, Skill
from trayturn.advice.outlook.score import past_forecasts, skill_of
from trayturn.advice.outlook.scored import NOTHING, past_lines, verdict
from trayturn.advice.outlook.what_if import Compared, read_what_if, what_if
from trayturn.advice.outlook.words import castings, skill_lines
from trayturn.cli import as_json, outlook_data
from trayturn.cli.layout import Page
from trayturn.cli.opening import open_bin, readable, stack_asked
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.domain.stack import Stack
from trayturn.domain.units import UnitError
from trayturn.domain.words import day

MOST_DRAWS, LEAST_DRAWS = 5000, 20


def outlook_of(options: Namespace, clock: Clock) -> int:
    """Print the outlook of one bin, or two of them side by side with `--what-if`."""
    profile = readable(open_bin(options))
    stack = stack_asked(options, profile, clock())
    days = _within(options.days, "--days", 1, LONGEST_DAYS) or DAYS
    draws = _within(options.draws, "--draws", LEAST_DRAWS, MOST_DRAWS) or DRAWS
    seed = 1 if options.seed is None else _within(options.seed, "--seed", 0, 2**63 - 1) or 0
    page = Page(options.ascii)
    if options.what_if:
        try:
            what = read_what_if(options.what_if, stack.setup.units)
        except UnitError as error:
            raise Refused(str(error)) from None
        both = what_if(profile, stack.as_of, what, days, seed=seed, draws=draws)
        if options.json:
            as_json.print_json(outlook_data.of_both(both, stack))
        else:
            _print_both(both, stack, page)
        return 0
    told = outlook(profile, stack.as_of, days, seed=seed, draws=draws)
    if options.json:
        as_json.print_json(outlook_data.of_outlook(told, stack))
    else:
        _print(told, stack, page)
    return 0


def _within(value: int | None, option: str, least: int, most: int) -> int | None:
    if value is not None and not least <= value <= most:
        raise Refused(f"{option} takes a whole number from {least} to {most}.")
    return value


def _title(stack: Stack, page: Page, words: str) -> None:
    as_of = stack.as_of
    page.title(f"{words} of {stack.setup.name}", f"{as_of:%a} {as_of.day} {as_of:%b %Y}")


def _print(told: Outlook, stack: Stack, page: Page) -> None:
    _title(stack, page, "The outlook")
    page.lines(told.sentences, 0, 2)
    _print_trays(told, page)
    if told.plan is not None and told.series:
        page.line()
        page.line(f"As planned: {'; '.join(plan_words(told.plan, stack.setup.units))}.", 0, 2)
        page.lines(told.plan.said, 2, 2)
    page.lines(told.assumed, 2, 2)
    if told.series:
        page.line()
        page.line("Bands hold 4 times in 5, as far as the plan is kept. Why: trayturn handbook outlook", 0, 2)


def _print_trays(told: Outlook, page: Page) -> None:
    moist = [f"{tray} {100 * of.p10:.0f} to {100 * of.p90:.0f} %" for tray, of in told.moisture.items()]
    if moist:
        page.line(f"Moisture, from the bottom up: {', '.join(moist)}.", 0, 2)


def _print_both(both: Compared, stack: Stack, page: Page) -> None:
    units = stack.setup.units
    _title(stack, page, f"What if: {both.said}. The outlook")
    page.line()
    page.lines(both.differences, 0, 2)
    if both.do:
        page.line()
        page.line("What to do")
        page.lines(both.do, 2, 2)
    page.line()
    for words, told in (("As planned now", both.today), ("What if", both.then)):
        page.line(words)
        for one in told.harvests:
            page.line(f"{one.tray}, {day(one.date, told.as_of)}: {castings(one.castings_kg, units)}", 2, 2)
    page.line()
    rests = both.today.rests_on.words
    page.line(f"Both are reckoned with the same draws: {rests}.", 0, 2)


def score(options: Namespace, clock: Clock) -> int:
    """Print past forecasts beside what came."""
    profile = readable(open_bin(options))
    stack = stack_asked(options, profile, clock())
    past = past_forecasts(profile, history_of(profile, stack.as_of))
    skill = skill_of(past)
    if options.json:
        as_json.print_json(outlook_data.of_score(past, skill, stack))
    else:
        page = Page(options.ascii)
        _title(stack, page, "The forecasts")
        _print_score(past, skill, stack, page)
    return 0


def _print_score(past: tuple[PastForecast, ...], skill: Skill, stack: Stack, page: Page) -> None:
    if not past:
        page.line(NOTHING)
        return
    page.lines(skill_lines(skill), 0, 2)
    page.line(verdict(skill), 0, 2)
    for one in reversed(past):
        page.line()
        page.lines(past_lines(one, stack.as_of, stack.setup.units), 0, 2)
