"""The command line: one function per command, with text for people and JSON for scripts."""
