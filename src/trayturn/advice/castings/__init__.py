"""Castings once they are out of the bin: hatching, drying, sieving, curing, kept, used and given away."""
