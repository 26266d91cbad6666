"""The past year at a glance: a column a week, in one bin or in all."""
