"""The due list: everything that is due, in order, and which bin is next."""
