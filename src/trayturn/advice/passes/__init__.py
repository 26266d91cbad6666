"""What the passes of a separation tell: whether to stop, how many are left, and how long the worms need."""

from trayturn.advice.passes.durations import Durations, durations
from trayturn.advice.passes.estimate import Ahead, ahead, next_time
from trayturn.advice.passes.stopping import advised_to_stop, empty_kg, share_left
from trayturn.advice.passes.words import ahead_words, next_words, rest_option, rest_words

__all__ = [
    "Ahead",
    "Durations",
    "advised_to_stop",
    "ahead",
    "ahead_words",
    "durations",
    "empty_kg",
    "next_time",
    "next_words",
    "rest_option",
    "rest_words",
    "share_left",
]
