"""The many-draw model of a tray stack and its fit to what was measured. The only place that knows numpy."""
