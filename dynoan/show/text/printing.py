"""Blocks of text on standard output, notes on standard error; in a terminal nothing is wider than it."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from typing import TextIO

from dynoan.show.text.blocks import Block, Note, Paragraph, Table
from dynoan.show.text.spelled import spelled
from dynoan.show.text.tables import table
from dynoan.show.text.widths import spread, terminal_width


def write(blocks: Iterable[Block]) -> None:
    """Print paragraphs, tables and notes, in order."""
    for block in blocks:
        if isinstance(block, Table):
            table(block.columns, block.rows, block.title)
        elif isinstance(block, Note):
            sys.stdout.flush()
            say(f"dynoan: {block.text}" if block.failed else block.text, sys.stderr)
        elif isinstance(block, Paragraph) and block.measure:
            _read(block, block.measure)
        else:
            say(block.text, sys.stdout, drawn=block.drawn)


def _read(block: Paragraph, measure: int) -> None:
    """Print prose, wrapped at its measure or at the terminal's width if that is less."""
    width = min(measure, terminal_width()) if sys.stdout.isatty() else measure
    sys.stdout.write(f"{spread(spelled(block.text, sys.stdout), width, block.hang)}\n")
    sys.stdout.flush()


def say(text: str, stream: TextIO, *, drawn: bool = False) -> None:
    """Print a line or several, wrapped between words where a person looks on; a drawing stays as it is."""
    text = spelled(text, stream)
    stream.write(f"{spread(text, terminal_width()) if stream.isatty() and not drawn else text}\n")
    stream.flush()
