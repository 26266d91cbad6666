"""How far a sum of further draws may lie from what past draws lead to expect; the band of a product."""

from __future__ import annotations

import math

from trayturn.science.errors import within

T_80 = (
    *(3.078, 1.886, 1.638, 1.533, 1.476, 1.440, 1.415, 1.397, 1.383, 1.372),
    *(1.363, 1.356, 1.350, 1.345, 1.341, 1.337, 1.333, 1.330, 1.328, 1.325),
    *(1.323, 1.321, 1.319, 1.318, 1.316, 1.315, 1.314, 1.313, 1.311, 1.310),
)
"""The two-sided 80 % point of Student's t for 1 to 30 degrees of freedom."""
Z_80 = 1.2816
"""The two-sided 80 % point of the normal distribution."""


def t_80(degrees: int) -> float:
    """The two-sided 80 % point of Student's t. Raises `OutOfRange` below one degree of freedom."""
    within(degrees, "The degrees of freedom", 1, 1e9)
    return T_80[degrees - 1] if degrees <= len(T_80) else Z_80 * (1 + 0.66 / degrees)


def sum_off(sd: float, seen: int, number: float) -> float:
    """Half the width of the 80 % prediction interval of the sum of `number` further draws.

    `seen` past draws, two or more, have the standard deviation `sd`. It is t s sqrt(n + n^2/m): the usual
    prediction interval of the mean of n further draws, n times as wide; right for draws that are normal and
    independent. Raises `OutOfRange` for fewer than two past draws.
    """
    within(seen, "The draws seen", 2, 1e9)
    return t_80(seen - 1) * sd * math.sqrt(number + number**2 / seen)


def product(*bands: tuple[float, float, float]) -> tuple[float, float, float]:
    """The band of a product of estimates that err independently, each as low, middle and high above nothing.

    The ends of each stand for the same chance; as ratios to the middle their logarithms add as squares, which
    is exact for lognormal estimates. All at their worst at once would be far too wide. The law of propagation
    of uncertainty for products (JCGM 100:2008, 5.1.6; from memory). Raises `OutOfRange` for ends out of
    order.
    """
    for low, middle, high in bands:
        within(middle, "The middle of a band", within(low, "The low end", 1e-300, 1e300), 1e300)
        within(high, "The high end", middle, 1e300)
    middle = math.prod(band[1] for band in bands)
    down = math.sqrt(sum(math.log(band[1] / band[0]) ** 2 for band in bands))
    up = math.sqrt(sum(math.log(band[2] / band[1]) ** 2 for band in bands))
    return middle * math.exp(-down), middle, middle * math.exp(up)
