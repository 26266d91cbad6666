"""The stack screen: one bin drawn, what is due and why, and each tray's story."""
