"""Published answers to test against, each with its source; `memory` marks those written from memory."""

from __future__ import annotations

SCHNUTE = (
    # Schnute, Can. J. Fish. Aquat. Sci. 1983, tables 1-3: four-pass samples, Moran's N, 95 % interval, p.
    ((45, 11, 18, 8), 90.6, (83.4, 109.2), 0.44),
    ((52, 31, 10, 12), 114.6, (107, 131.5), 0.46),
    ((48, 10, 6, 6), 71.1, (70, 76.3), 0.61),
    ((88, 22, 11, 2), 123.4, (123, 126.7), 0.70),
    ((50, 10, 8, 6), 75.5, (74, 81.3), 0.60),
    ((44, 12, 1, 0), 57.0, (57, 58), 0.80),
    ((53, 22, 14, 4), 96.4, (93, 104.8), 0.55),
    ((24, 13, 5, 3), 46.6, (45, 54.4), 0.54),
    ((37, 4, 2, 3), 46.0, (46, 47.7), 0.73),
    ((63, 9, 12, 4), 88.9, (88, 93.4), 0.64),
    ((16, 22, 6, 4), 55.0, (48.4, 81.6), 0.39),
    ((47, 16, 11, 4), 80.3, (78, 87.3), 0.57),
    ((38, 11, 4, 5), 58.9, (58, 64), 0.61),
    ((18, 16, 5, 2), 43.2, (41, 53.5), 0.50),
    ((27, 9, 5, 3), 44.8, (44, 50.5), 0.58),
    ((55, 6, 3, 4), 68.0, (68, 69.9), 0.74),
)
BOHLIN = {
    # Bohlin et al. 1989, table 2: CV in percent by share, passes, and 50, 100, 200, 400 animals.
    (0.4, 2): (42, 30, 21, 15),
    (0.4, 3): (19, 13, 9, 7),
    (0.4, 4): (10, 7, 5, 4),
    (0.6, 2): (14, 10, 7, 5),
    (0.6, 3): (6, 4, 3, 2),
    (0.6, 4): (3, 2, 1.5, 1),
    (0.8, 2): (4, 3, 2, 1.5),
    (0.8, 3): (1.5, 1, 0.7, 0.5),  # the first is printed 1.4; the formula of the same paper gives 1.45
    (0.8, 4): (0.6, 0.4, 0.3, 0.2),
}
MITES = (70, 38, 17, 10, 9, 3, 2, 1)
"""Bliss & Fisher, Biometrics 1953: how many of 150 leaves held 0 to 7 mites."""
JOHNSTON_DAYS = {10: 35.46, 15: 29.69, 20: 25.00, 25: 21.18, 30: 18.04}
"""Days to 0.25 g, computed from the law of Johnston et al. 2014, Ecological Modelling 280:5-17."""
GUNADI = (0.011, 0.032, 0.079, 0.131, 0.256, 0.368, 0.414, 0.442, 0.462, 0.448, 0.45, 0.459, 0.494)
"""Gunadi, Blount & Edwards 2002, Pedobiologia 46:15-23: mean mass in g by week at 20 C, from week 0."""
LIFE_TABLES = (
    # Computed from published inputs by Euler-Lotka: b, alpha, inc, s, mu, then r and doubling time.
    ((1.2, 56, 23, 1.0, 0.0), 0.04233, 16.4),
    ((0.8871, 60, 25, 1.0, 0.0), 0.03729, 18.6),
    ((0.1875, 70, 30, 0.3, 0.003), 0.01147, 60.4),
    ((0.6974, 21, 18.7, 1.0, 0.0), 0.06126, 11.3),
)
