"""Running one command line inside this process, as if typed in a folder, and keeping all that it left."""

from __future__ import annotations

import contextlib
import importlib
import io
import os
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from types import ModuleType
from unittest import mock

#: a folder whose program is run in place of this tree's, to record or check the answers of another state of the code
SOURCE = "DYNOAN_GOLDEN_SOURCE"
SETTLED = {"COLUMNS": "100", "LINES": "40", "NO_COLOR": "1", "TERM": "dumb", "TZ": "UTC", "LC_ALL": "C.UTF-8"}
LEFT_OUT = ("DYNOAN_LIBRARY", "FORCE_COLOR", "CLICOLOR_FORCE")


@dataclass(frozen=True)
class Ran:
    """What one call left."""

    code: int
    out: str
    err: str
    folder: Path
    files: Mapping[str, bytes] = field(default_factory=dict)


@cache
def program() -> ModuleType:
    """Return the module whose `main` is the command line.

    Raises
    ------
    RuntimeError
        If another folder's program is wanted and this process has loaded its own before.
    """
    source = os.environ.get(SOURCE)
    if source:
        sys.path.insert(0, source)
    module = importlib.import_module("dynoan.cli.main")
    importlib.import_module("importers")
    for name in ("dynoan", "importers"):
        file = str(sys.modules[name].__file__)
        if source and not file.startswith(source.rstrip("/") + "/"):
            raise RuntimeError(f"{name} is {file}, not of {SOURCE}={source}")
    return module


def run(words: list[str], folder: Path) -> Ran:
    """Run a command line in a folder."""
    out, err = io.BytesIO(), io.BytesIO()
    with _settled(words), contextlib.chdir(folder), _streams(out, err):
        code = _call()
    return Ran(code, out.getvalue().decode(), err.getvalue().decode(), folder)


def _call() -> int:
    try:
        program().main()
    except SystemExit as stop:
        return int(stop.code or 0)
    return 0


@contextlib.contextmanager
def _settled(words: list[str]) -> Iterator[None]:
    program()
    kept = {k: v for k, v in os.environ.items() if k not in LEFT_OUT}
    with mock.patch.dict(os.environ, kept | SETTLED, clear=True), mock.patch.object(sys, "argv", ["dynoan", *words]):
        yield


@contextlib.contextmanager
def _streams(out: io.BytesIO, err: io.BytesIO) -> Iterator[None]:
    one, two = (io.TextIOWrapper(raw, encoding="utf-8", newline="") for raw in (out, err))
    with contextlib.redirect_stdout(one), contextlib.redirect_stderr(two):
        try:
            yield
        finally:
            for stream in (one, two):
                if not stream.closed:
                    stream.flush()
                    stream.detach()
