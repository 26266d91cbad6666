"""The moisture of a sample, weighed before and after it is dried."""

from __future__ import annotations

from trayturn.science.errors import OutOfRange, within


def moisture_by_drying(container: float, container_wet: float, container_dry: float) -> float:
    """Water as a share of the fresh mass, 0 to 1, from three weights in one unit: the container alone, with
    the wet sample, and with the same sample dried.

    Source: T. Richard & N. Trautmann, Moisture Content, Cornell Composting 1996: (wet - dry) / wet. Raises
    `OutOfRange` for weights that cannot be.
    """
    within(container, "The container", 0, 1e6)
    within(container_wet, "The container with the wet sample", 0, 1e6)
    within(container_dry, "The container with the dried sample", 0, 1e6)
    if container_wet <= container:
        raise OutOfRange("With the wet sample in it, the container has to weigh more than empty.")
    if not container <= container_dry <= container_wet:
        raise OutOfRange("The dried sample has to weigh less than the wet one, and not less than nothing.")
    return (container_wet - container_dry) / (container_wet - container)
