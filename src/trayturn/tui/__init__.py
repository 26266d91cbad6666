"""The screens: what a keeper sees and presses at the bin."""
