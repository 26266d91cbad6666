"""What a tray holds that never becomes castings: pieces that go round again, and what does not belong."""
