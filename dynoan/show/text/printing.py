"""Blocks of text on standard output."""

from __future__ import annotations

import sys
from collections.abc import Iterable

from dynoan.show.text.blocks import Block, Table
from dynoan.show.text.tables import table


def write(blocks: Iterable[Block]) -> None:
    """Print paragraphs and tables, in order."""
    for block in blocks:
        if isinstance(block, Table):
            table(block.columns, block.rows, block.title)
        else:
            sys.stdout.write(f"{block.text}\n")
