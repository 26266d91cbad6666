"""When the cautions have to be read before work: each session for what can hurt, once for feeding."""

from __future__ import annotations

from datetime import datetime

import pytest

from tests.builders import a_profile, a_usual_bin, entry, moment
from trayturn.advice.asking import must_read
from trayturn.advice.cautions import cautions_for
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack

READ_AT = moment(100, 9)


def stack_after_reading(work: str, leave_out: int = 0) -> Stack:
    codes = [caution.code for caution in cautions_for(work)][leave_out:]
    read = entry("cautions_read", READ_AT, work=work, codes=codes)
    return replay(a_profile(*a_usual_bin(), read), moment(400))


@pytest.mark.parametrize("work", ["grit", "turn", "separation"])
@pytest.mark.parametrize(
    ("now", "asked"), [(moment(100, 20), False), (moment(100, 22), True), (moment(99), True)]
)
def test_dangerous_work_asks_again_each_session(work: str, now: datetime, asked: bool) -> None:
    assert must_read(stack_after_reading(work), work, now) is asked


def test_feeding_asks_once() -> None:
    assert must_read(replay(a_profile(*a_usual_bin()), moment(70)), "feeding", moment(70))
    assert not must_read(stack_after_reading("feeding"), "feeding", moment(400))


@pytest.mark.parametrize("work", ["feeding", "grit"])
def test_one_line_left_out_is_asked(work: str) -> None:
    assert must_read(stack_after_reading(work, leave_out=1), work, READ_AT)


def test_unknown_work_is_refused() -> None:
    with pytest.raises(ValueError, match="juggling"):
        must_read(stack_after_reading("grit"), "juggling", READ_AT)
