"""Running a command line where a person looks on: in a pseudo-terminal of a given width."""

from __future__ import annotations

import fcntl
import io
import os
import pty
import struct
import sys
import termios
from pathlib import Path

from tests.golden import running


def shown(words: list[str], folder: Path, width: int) -> str:
    """Return all that a terminal of so many columns is sent by a command line run in a folder."""
    running.program()
    child, end = pty.fork()
    if child == 0:
        _run(words, folder, width)
    sent = b""
    while more := read(end):
        sent += more
    os.close(end)
    os.waitpid(child, 0)
    return sent.decode().replace("\r\n", "\n")


def _run(words: list[str], folder: Path, width: int) -> None:
    """Become the program, in the child."""
    try:
        settle(folder, width)
        sys.argv = ["dynoan", *words]
        running.program().main()
    finally:
        os._exit(0)


def settle(folder: Path, width: int) -> None:
    """Make this process, whose streams are a terminal, one in a folder with a terminal of so many columns."""
    fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", 40, width, 0, 0))
    os.chdir(folder)
    os.environ.update(running.SETTLED)
    for name in (*running.LEFT_OUT, "COLUMNS"):
        os.environ.pop(name, None)
    for number, name in enumerate(("stdout", "stderr"), start=1):
        stream = io.TextIOWrapper(os.fdopen(number, "wb", buffering=0), encoding="utf-8", write_through=True)
        setattr(sys, name, stream)
        setattr(sys, f"__{name}__", stream)


def read(end: int) -> bytes:
    """Return what a terminal was sent, empty at the end."""
    try:
        return os.read(end, 65536)
    except OSError:  # the other end is closed: how Linux tells that the program has ended
        return b""
