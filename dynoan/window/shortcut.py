"""A file to double-click that opens the window."""

from __future__ import annotations

import os
import shlex
import stat
import sys
from pathlib import Path

from dynoan.errors import CallError
from dynoan.output import write

NAME = "dynoan"


def install(library: Path, *, platform: str = sys.platform, home: Path | None = None) -> Path:
    """Write the shortcut for this system and return where it is: the desktop, or the home folder where there is none.

    Raises
    ------
    CallError
        If a file of that name is there that is no such shortcut, or the folder's name cannot stand in one.
    LibraryError
        If it cannot be written.
    """
    if any(not c.isprintable() for c in str(library)):
        raise CallError(
            "a folder with invisible characters in its name cannot stand in a shortcut", where=f"{library!r}"
        )
    suffix, text = shortcut(library, platform, sys.executable)
    home = Path.home() if home is None else home
    desktop = home / "Desktop"
    path = (desktop if desktop.is_dir() else home) / f"{NAME}{suffix}"
    if path.is_file() and path.read_bytes() == text.encode():
        return path
    write(path, text.encode())
    if platform != "win32":
        os.chmod(path, stat.S_IMODE(path.stat().st_mode) | stat.S_IXUSR)
    return path


def shortcut(library: Path, platform: str, python: str) -> tuple[str, str]:
    """Return the ending and the text of the shortcut for a system.

    Raises
    ------
    CallError
        If the folder's name holds characters that Windows would take for something else.
    """
    if platform == "win32":
        if any(c in f"{python}{library}" for c in '%"!^&<>|'):
            raise CallError(
                "a name with %, !, ^, & or such cannot stand in a shortcut", where=library, hint="rename the folder"
            )
        return ".bat", f'@echo off\r\nrem dynoan shortcut\r\n"{python}" -m dynoan open "{library}"\r\npause\r\n'
    line = f"{shlex.quote(python)} -m dynoan open {shlex.quote(str(library))}"
    if platform == "darwin":
        return ".command", f"#!/bin/sh\n# dynoan shortcut\nexec {line}\n"
    return ".desktop", (
        "[Desktop Entry]\n# dynoan shortcut\nType=Application\nName=dynoan\n"
        "Comment=Shock dyno curves, clicks, log book\n"
        f"Exec={_exec(python)} -m dynoan open {_exec(str(library))}\nTerminal=true\nCategories=Science;\n"
    )


def _exec(word: str) -> str:
    """Return a word as the Desktop Entry Specification quotes it in Exec."""
    quoted = "".join(f"\\{c}" if c in '"`$\\' else c for c in word).replace("%", "%%")
    return '"' + quoted.replace("\\", "\\\\") + '"'
