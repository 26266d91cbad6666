"""Where bins are kept: one TOML file each, read, added to and looked after. Nothing written is ever lost."""
