"""How quick the program is, as ratios to floors measured in the same run: `python -m tests.bench`.

Needs Linux: it reads `/proc`. Its figures are for reading, never for passing or failing.
"""
