"""The castings ledger: what came out of each tray against what went in."""
