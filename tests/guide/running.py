"""Running a page of the guide as its reader would, in a terminal, and keeping what each command says."""

from __future__ import annotations

import os
import pty
import sys
from collections.abc import Iterator
from pathlib import Path

from dynoan.guide import Topic
from tests.golden import running, terminal
from tests.guide.pages import Step, expanded, steps

WIDTH = 76  #: of the terminal that examples are shown in: with four columns before them they fit one of 80 [columns]


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
    """Return the lines that a command line says in a terminal, and its exit code."""
    running.program()
    child, end = pty.fork()
    if child == 0:
        _become(words, folder)
    sent = b""
    while more := terminal.read(end):
        sent += more
    os.close(end)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    # Progress is written over, and is shown only where something took long: it is no part of an answer.
    lines = [line.rstrip() for line in sent.decode().split("\n") if "\r" not in line.rstrip("\r")]
    while lines and not lines[-1]:
        lines.pop()
    return lines, code


def _become(words: list[str], folder: Path) -> None:
    """Become the program, in the child."""
    code = 2
    try:
        terminal.settle(folder, WIDTH)
        sys.argv = ["dynoan", *words]
        running.program().main()
    except SystemExit as stop:
        code = int(stop.code or 0)
    finally:
        os._exit(code)
