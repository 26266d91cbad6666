"""What all tests share: what one process has compiled serves every other that they start."""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from functools import partial

import pytest


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
