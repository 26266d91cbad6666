"""The form that reckons the moisture of a sample weighed wet and dried."""

from __future__ import annotations

from datetime import datetime

from trayturn.advice.checking.moisture import percent_by_drying
from trayturn.domain.setup import Units
from trayturn.tui.screens.forms.fields import Field
from trayturn.tui.screens.forms.form import Form, Values

INTRO = (
    "Weigh a small container empty and with a wet sample; dry that until it gets no lighter, and weigh again."
)
EXAMPLES = {Units.METRIC: ("4 g", "14 g", "6.3 g"), Units.US: ("0.2 oz", "0.6 oz", "0.3 oz")}


def sample_form(units: Units) -> Form:
    """Three weights; it builds the moisture in percent of the fresh mass."""
    empty, wet, dry = EXAMPLES[units]
    fields = (
        Field("container", "Container", "mass", f"empty, such as {empty}", required=True, least=0, most=1000),
        Field(
            "wet", "With it wet", "mass", f"container and wet sample, such as {wet}", required=True, least=0
        ),
        Field("dry", "With it dry", "mass", f"the same when dried, such as {dry}", required=True, least=0),
    )
    return Form("Moisture of a dried sample", INTRO, fields, _percent, units, "Take it")


def _percent(values: Values, now: datetime) -> float:
    return percent_by_drying(values["container"], values["wet"], values["dry"])
