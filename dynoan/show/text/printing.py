"""Blocks of text on standard output, notes on standard error; in a terminal nothing is wider than it."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from typing import TextIO

from dynoan.show.text.blocks import Block, Note, Paragraph, Table
from dynoan.show.text.spelled import spelled
from dynoan.show.text.tables import table
from dynoan.show.text.widths import spread, terminal_width

#: how a line begins that is there to be copied
_COMMANDS = ("$ ", "dynoan ")


def write(blocks: Iterable[Block]) -> None:
    """Print paragraphs, tables and notes, in order."""
    for block in blocks:
        if isinstance(block, Table):
            table(block.columns, block.rows, block.title, alike=block.alike)
        elif isinstance(block, Note):
            sys.stdout.flush()
            say(f"dynoan: {block.text}" if block.failed else block.text, sys.stderr)
        elif isinstance(block, Paragraph) and block.measure:
            _read(block, block.measure)
        else:
            say(block.text, sys.stdout, drawn=block.drawn, typed=block.typed)


def _read(block: Paragraph, measure: int) -> None:
    """Print prose, wrapped at its measure or at the terminal's width if that is less."""
    width = min(measure, terminal_width()) if sys.stdout.isatty() else measure
    sys.stdout.write(f"{spread(spelled(block.text, sys.stdout), width, block.hang)}\n")
    sys.stdout.flush()


def say(text: str, stream: TextIO, *, drawn: bool = False, typed: bool = False) -> None:
    """Print a line or several, wrapped between words where a person looks on.

    What is `drawn` stays as it is; of what was `typed` and answered the command lines do, which are there to be copied.
    """
    text = spelled(text, stream)
    if stream.isatty() and not drawn:
        text = "\n".join(_folded(line, terminal_width(), typed=typed) for line in text.split("\n"))
    stream.write(f"{text}\n")
    stream.flush()


def _folded(line: str, width: int, *, typed: bool) -> str:
    return line if typed and line.lstrip().startswith(_COMMANDS) else spread(line, width, 2 if typed else 0)
