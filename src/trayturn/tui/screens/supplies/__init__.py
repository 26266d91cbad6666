"""The supplies of one bin: what is in stock, how long it lasts, and what to gather."""
