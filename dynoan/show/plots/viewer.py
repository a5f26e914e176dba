"""Opening a file with what the platform uses for it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from dynoan.errors import CallError


def open_file(path: Path) -> None:
    """Open a file in the platform's own viewer, without waiting for it.

    Raises
    ------
    CallError
        If there is no display or no viewer.
    """
    if sys.platform == "win32":
        os.startfile(path)
        return
    if sys.platform == "darwin":
        _start("open", path)
        return
    if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        raise CallError(
            "--show: there is no display here", hint=f"write a file with --plot instead (it is also at {path})"
        )
    _start("xdg-open", path)


def _start(program: str, path: Path) -> None:
    found = shutil.which(program)
    if found is None:
        raise CallError(
            f"--show: '{program}' is not installed", hint=f"open {path} yourself, or write a file with --plot"
        )
    subprocess.Popen([found, str(path)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
