"""Moisture by weighing: of a sample that is dried, and of castings while they dry."""

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


def mass_at(kg: float, moisture: float, then: float) -> float:
    """What material of that mass and moisture weighs, kg, once its moisture is `then`, both 0 to 1.

    Its solids stay. The same definition of moisture as above, turned around. Raises `OutOfRange`.
    """
    within(kg, "The mass", 0, 1000, "kg")
    return kg * (1 - within(moisture, "The moisture", 0, 1)) / (1 - within(then, "The moisture", 0, 0.99))


def moisture_at(kg: float, moisture: float, now_kg: float) -> float:
    """The moisture, 0 to 1, of material that had that mass and moisture and weighs `now_kg` since.

    Nothing but water came or went. Raises `OutOfRange`, also for less than its solids weigh.
    """
    solids = mass_at(kg, moisture, 0.0)
    # What was reckoned back and forth may weigh less than its solids by the last digit.
    return max(0.0, 1 - solids / within(now_kg, "The mass now", max(solids * (1 - 1e-9), 1e-9), 1e6, "kg"))
