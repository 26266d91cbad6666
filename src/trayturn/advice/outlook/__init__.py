"""The outlook: what the bin will give, need and weigh, with its bands, from the journal and a plan.

Nothing here imports numpy: the model is imported when it is run.
"""

from trayturn.advice.outlook.making import outlook
from trayturn.science.process.events import Stopped

__all__ = ["Stopped", "outlook"]
