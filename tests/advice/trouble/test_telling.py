"""The answer in words, the follow-up of a cause that is taken, and feeding that heeds it."""

from __future__ import annotations

from tests.advice.trouble.cases import FED, TODAY, a_case, checked, ranked, the, ticks
from tests.builders import a_profile, entry, fed, moment, started
from trayturn.advice.feeding import feed_next
from trayturn.advice.resting import rests_until
from trayturn.advice.trouble.case import Case
from trayturn.advice.trouble.follow_up import follow_up, open_follow_up
from trayturn.advice.trouble.ranking import Rank, Ranked, answers
from trayturn.advice.trouble.seen import Tick
from trayturn.advice.trouble.telling import answer, cautions, gist, headline, remedies, story
from trayturn.domain.entries import Entry, FollowUpSet
from trayturn.domain.replay import replay

WET = (FED, fed("A", 38), checked(feel="wet"))


def _first(case: Case, *signs: str) -> Ranked:
    return ranked(case, *signs)[0]


def test_a_cause_is_told_whole() -> None:
    case = a_case(*WET)
    one = _first(case, "drips", "white-mites")
    told = "\n".join(story(one, case, ticks("drips", "white-mites")))
    assert headline(one) == "most likely: Too wet"
    for words in (
        "Most likely. Water fills the gaps that air comes in by.",
        "+++ A handful drips when it is squeezed. [1]\n",
        "+++ Tray A was about 90 % wet by its reading of yesterday; worms do best at 70 to 85 %.",
        "? Nobody has looked into the sump in the last three weeks. To know it, look into the sump",
        "1. Mix torn dry paper or card in, from top to bottom. [1]\n   ",
        "[1] City of Euless, Texas, vermicomposting, after Appelhof; public advice",
        "[our reasoning] thought out here; no source",
        "Lay melon rind or potato slices on top",
        "Look again Fri 17 Apr (7 days): see whether a handful still drips.",
        "When to worry: It still drips then",
        "- Gloves on, hands off the face.",
    ):
        assert words in told
    heads = [
        line for line in told.splitlines() if line in ("For it", "Against it", "Not known", "What to do")
    ]
    assert heads == ["For it", "Not known", "What to do"]


def test_remedies_of_signs_that_are_not_there_are_left_out() -> None:
    case = a_case(*WET)
    one = _first(case, "drips")
    done = [remedy.do for remedy, _ in remedies(one, case, ticks("drips"))]
    assert not [do for do in done if "melon" in do or "sticky traps" in do]
    assert len(done) == 5


def test_what_speaks_against_is_told_too() -> None:
    case = a_case(FED, checked(moisture_pct=70))
    one = _first(case, "leaving")
    dry = the("too-dry", ranked(case, "leaving"))
    assert dry is not None
    assert (dry.rank, gist(dry)) == (Rank.UNLIKELY, "1 for, 1 against")
    assert "--- Tray A was 70 % wet" in "\n".join(story(dry, case, ticks("leaving")))
    assert one.cause.code != "too-dry"


def test_the_check_that_would_tell_the_most_is_named() -> None:
    assert answer(a_case(), ticks("leaving"), answers(a_case())).tells_most.startswith("squeeze a handful")
    sour = a_case(FED, fed("A", 38, bedding_kg={"card": 0.1}))
    assert answer(sour, ticks("smell-sour"), answers(sour)).tells_most.startswith("press a pH strip")
    assert answer(a_case(), [], answers(a_case())).tells_most == ""


def test_an_empty_bin_is_answered_from_the_signs_alone_and_it_says_so() -> None:
    told = answer(a_case(), ticks("smell-ammonia"), answers(a_case()))
    assert told.rests_on_signs_alone
    assert headline(told.ranked[0]) == "most likely: Too much nitrogen for its carbon"
    assert not answer(a_case(FED), ticks("dead"), answers(a_case(FED))).rests_on_signs_alone


def test_dangers_bring_their_cautions_whatever_the_cause() -> None:
    one = _first(a_case(), "mould", "uneaten", "smell-ammonia", "mice", "flatworms")
    codes = [c.code for c in cautions(one, ticks("mould", "uneaten", "smell-ammonia", "mice", "flatworms"))]
    assert set(codes) == {"ammonia", "mould", "rodents", "flatworms", "gloves", "hands"}
    assert codes.index("ammonia") < codes.index("hands")


def test_a_cause_taken_is_put_on_the_due_list() -> None:
    case = a_case(*WET, tray="A")
    taken = follow_up(_first(case, "drips"), case, ticks("drips"), moment(TODAY))
    assert (taken.code, taken.tray, taken.signs) == ("too-wet", "A", ("drips",))
    assert taken.what == "Tray A: see whether a handful still drips."
    assert taken.due == moment(TODAY + 7)
    assert taken.why.startswith("Taken as the cause: too wet (most likely). A handful drips")
    profile = a_profile(*WET, taken)
    stack = replay(profile, moment(TODAY))
    assert list(stack.follow_ups) == ["follow_up:too-wet:A"]


def test_one_that_is_open_already_is_found_for_the_same_tray_only() -> None:
    case = a_case(*WET)
    taken = follow_up(_first(case, "drips"), case, ticks("drips"), moment(TODAY))
    again, tray = (a_case(*WET, taken, tray=tray) for tray in (None, "A"))
    cause = _first(case, "drips").cause
    assert taken.what == "The bin: see whether a handful still drips."
    assert open_follow_up(cause, again) == taken
    assert open_follow_up(cause, tray) is None
    assert "On the due list for Fri 17 Apr already: The bin: see whether" in "\n".join(
        story(_first(again, "drips"), again, ticks("drips"))
    )


def test_a_follow_up_that_holds_food_back_is_due_when_the_food_is_gone() -> None:
    worms = entry("worms_added", 0, worms_kg=0.4)
    case = a_case(FED, worms, fed("A", TODAY, {"cabbage": 2.1}))
    taken = follow_up(_first(case, "uneaten"), case, ticks("uneaten"), moment(TODAY))
    assert (taken.code, taken.due) == ("overfed", moment(TODAY + 15))


def _set(code: str, days: float, tray: str | None = None) -> Entry:
    made: FollowUpSet = entry(
        "follow_up_set", TODAY, code=code, what="look", due=moment(TODAY + days), tray=tray
    )
    return made


def test_feeding_waits_for_a_follow_up_that_holds_food_back() -> None:
    fed_once = (FED, started("B", 0, level=1), fed("A", 20))
    before = feed_next(replay(a_profile(*fed_once), moment(TODAY)))
    assert (before.ready, before.what) == (True, "Feed tray A now.")
    held = feed_next(replay(a_profile(*fed_once, _set("overfed", 9)), moment(TODAY)))
    assert (held.ready, held.due) == (False, moment(TODAY + 9))
    assert held.what == "Feed tray A once it is looked at again on Sun 19 Apr."
    assert "Food is held back until the follow-up: look" in held.why
    over = feed_next(replay(a_profile(*fed_once, _set("overfed", 9)), moment(TODAY + 9)))
    assert (over.ready, over.what) == (True, "Feed tray A now.")


def test_only_what_holds_food_back_of_that_tray_or_the_bin_does() -> None:
    def until(*entries: Entry, tray: str | None = "A") -> object:
        stack = replay(a_profile(FED, started("B", 0, level=1), *entries), moment(TODAY))
        held = rests_until(stack, tray)
        return held[0] if held else None

    assert until() is None
    assert until(_set("too-cold", 5)) is None
    assert until(_set("too-wet", 5, "B")) is None
    assert until(_set("too-wet", 5, "B"), tray=None) == moment(TODAY + 5)
    assert until(_set("too-wet", 5, "A"), _set("overfed", 8)) == moment(TODAY + 8)
    assert until(_set("too-wet", 5), entry("done", TODAY, item="follow_up:too-wet")) is None


def test_a_bedding_tray_that_could_be_fed_is_told_of_it_too() -> None:
    waiting = replay(a_profile(started("A", 0), _set("overfed", 9)), moment(TODAY))
    assert "Food is held back until the follow-up: look" in feed_next(waiting).why
    assert "once it is looked at again on Sun 19 Apr" in feed_next(waiting).what


def test_a_sign_from_a_check_says_so_and_counts_once() -> None:
    case = a_case(FED, checked(temperature_c=8, smell="rotten"))
    cold = [Tick("chilled", "from the check of yesterday")]
    one = next(each for each in answer(case, cold, answers(case)).ranked if each.cause.code == "too-cold")
    assert one.points == 3
    by_hand = the("too-cold", ranked(case, "chilled"))
    assert by_hand is not None
    assert by_hand.points == 6
    smell = [Tick("smell-rotten", "from the check of yesterday")]
    overfed = answer(case, smell, answers(case)).ranked[0]
    assert "It smells rotten. (from the check of yesterday)" in [reason.words for reason in overfed.reasons]


def test_what_is_seen_now_overrules_an_older_reading_of_the_same_thing() -> None:
    case = a_case(FED, checked(35, moisture_pct=72))
    wet = the("too-wet", ranked(case, "drips"))
    assert wet is not None
    assert (wet.rank, wet.points) == (Rank.LIKELY, 3)
    told = "\n".join(story(wet, case, ticks("drips")))
    assert "= What you see now overrules it: Tray A was 72 % wet by its reading" in told
    leaving = the("too-wet", ranked(case, "leaving"))
    assert leaving is not None
    assert leaving.points == 0
