"""Running a page of the guide as its reader would, and keeping what each command says."""

from __future__ import annotations

import contextlib
import io
import os
import sys
from collections.abc import Iterator
from pathlib import Path
from unittest import mock

from dynoan.cli.main import main
from dynoan.guide import Topic
from tests.guide.pages import Step, expanded, steps


def ran(topic: Topic, folder: Path) -> Iterator[tuple[Step, list[str], int]]:
    """Yield each command of a page with the lines it said, both streams as a terminal mixes them, and its exit code."""
    for step in steps(topic):
        if step.file:
            (folder / step.file).parent.mkdir(parents=True, exist_ok=True)
            (folder / step.file).write_text(step.text, encoding="utf-8")
        else:
            said, code = call(expanded(step.words, folder), folder)
            yield step, said, code


def call(words: list[str], folder: Path) -> tuple[list[str], int]:
    """Return the lines that a command line says, and its exit code."""
    raw = io.BytesIO()
    stream = io.TextIOWrapper(raw, encoding="utf-8", newline="", write_through=True)
    code = 0
    with (
        contextlib.chdir(folder),
        mock.patch.dict(os.environ, {"NO_COLOR": "1", "TZ": "UTC", "COLUMNS": "100"}),
        mock.patch.object(sys, "argv", ["dynoan", *words]),
        contextlib.redirect_stdout(stream),
        contextlib.redirect_stderr(stream),
    ):
        try:
            main()
        except SystemExit as stop:
            code = int(stop.code or 0)
        if not stream.closed:
            stream.flush()
            stream.detach()
    lines = [line.rstrip() for line in raw.getvalue().decode().splitlines()]
    while lines and not lines[-1]:
        lines.pop()
    return lines, code
