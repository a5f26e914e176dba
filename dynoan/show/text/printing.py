"""Blocks of text on standard output, notes on standard error."""

from __future__ import annotations

import sys
from collections.abc import Iterable

from dynoan.show.text.blocks import Block, Note, Table
from dynoan.show.text.tables import table


def write(blocks: Iterable[Block]) -> None:
    """Print paragraphs, tables and notes, in order."""
    for block in blocks:
        if isinstance(block, Table):
            table(block.columns, block.rows, block.title)
        elif isinstance(block, Note):
            sys.stdout.flush()
            sys.stderr.write(f"dynoan: {block.text}\n" if block.failed else f"{block.text}\n")
        else:
            sys.stdout.write(f"{block.text}\n")
