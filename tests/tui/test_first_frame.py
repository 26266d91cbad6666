"""What the first frame must not wait for."""

import subprocess
import sys
from pathlib import Path

FIRST_FRAME = """
import sys
from pathlib import Path
from trayturn.tui.app import TrayturnApp

READERS = {"pydantic", "tomli", "filelock", "trayturn.domain.entries"}

TrayturnApp._begin = lambda app: app.exit(sorted(READERS & set(sys.modules)))
print(TrayturnApp(Path(sys.argv[1])).run(headless=True))
"""


def test_the_first_frame_is_painted_before_anything_for_reading_journals_is_imported(tmp_path: Path) -> None:
    (tmp_path / "pantry.toml").write_text('format = 1\n[bin]\nname = "Pantry"\n', "utf-8")
    command = [sys.executable, "-c", FIRST_FRAME, str(tmp_path)]
    done = subprocess.run(command, capture_output=True, text=True, check=True, timeout=30)
    assert done.stdout.strip() == "[]"
