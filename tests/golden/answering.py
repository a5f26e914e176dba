"""Running the held lines and settling what they left."""

from __future__ import annotations

import shlex
from dataclasses import replace
from pathlib import Path
from typing import Any

from tests.golden.grounds import Grounds
from tests.golden.line import Line
from tests.golden.running import Ran, run
from tests.golden.settled import json_answer, plain_answer

KINDS = ("json", "plain")


def held(kind: str, line: Line) -> bool:
    """Tell whether a line's answer of this kind is held."""
    return line.json if kind == "json" else line.plain


def answer(kind: str, line: Line, grounds: Grounds) -> dict[str, Any]:
    """Return the settled answer of one line."""
    if line.slug == "demo":
        return json_answer(line, _demo(grounds))
    with grounds.place(line) as folder:
        for name in line.leaves:
            if name.startswith("held/"):  # what an earlier run of the same line left is not to be written over
                (folder / name).unlink(missing_ok=True)
        for text in line.before:
            run(shlex.split(text), folder)
        if kind == "json":
            return json_answer(line, run([*line.words, "--json"], folder))
        grounds.said[line.slug] = ran = run(line.words, folder)
        return plain_answer(line, _with_files(ran, line, folder))


def said(line: Line, grounds: Grounds) -> Ran:
    """Return what a line says as text, piped; one whose text was asked for before is not run again."""
    if line.slug not in grounds.said:
        with grounds.place(line) as folder:
            for text in line.before:
                run(shlex.split(text), folder)
            grounds.said[line.slug] = run(line.words, folder)
    return grounds.said[line.slug]


def _demo(grounds: Grounds) -> Ran:
    """Return what the demo said when it made its ground: it is not run twice."""
    grounds.of("demo")
    assert grounds.demo is not None
    return grounds.demo


def _with_files(ran: Ran, line: Line, folder: Path) -> Ran:
    files = {name: (folder / name).read_bytes() for name in line.leaves if (folder / name).is_file()}
    return replace(ran, files=files)
