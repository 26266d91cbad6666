"""The past, week by week: what was fed, looked at, turned and made, in one bin or in all."""

from trayturn.advice.past.tally import Tally, tally, tally_of
from trayturn.advice.past.year import WEEKS, Gap, Past, Week, past_of

__all__ = ["WEEKS", "Gap", "Past", "Tally", "Week", "past_of", "tally", "tally_of"]
