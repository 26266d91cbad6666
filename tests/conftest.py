"""What all tests share: what one process has compiled serves every other that they start."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from functools import partial
from pathlib import Path

import pytest

HERE = Path(__file__).parent


def pytest_configure(config: pytest.Config) -> None:
    """Where no compiled files may be kept beside the sources, they are kept aside while the tests run.

    Otherwise each worker and each program that a test starts would compile all of the sources again.
    """
    if hasattr(config, "workerinput") or not sys.dont_write_bytecode:
        return
    aside = tempfile.mkdtemp(prefix="trayturn-compiled-")
    config.add_cleanup(partial(shutil.rmtree, aside, ignore_errors=True))
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.environ["PYTHONPYCACHEPREFIX"] = aside
    if config.option.numprocesses and config.args == config.getini("testpaths"):
        _compile_all()


def _compile_all() -> None:
    """Compile the tests on two cores before the workers start: each of them would do so for itself."""
    folders = sorted(str(path) for path in HERE.iterdir() if (path / "__init__.py").exists())
    order = [sys.executable, "-m", "pytest", "--collect-only", "-q", "-n", "0", "-p", "no:cacheprovider"]
    halves = [
        subprocess.Popen([*order, *half], cwd=HERE.parent, stdout=subprocess.DEVNULL)
        for half in (folders[::2], folders[1::2])
    ]
    for half in halves:
        half.wait()
