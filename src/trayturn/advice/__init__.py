"""The keeper's questions answered from a replayed stack. Pure: everything holds as of `stack.as_of`."""
