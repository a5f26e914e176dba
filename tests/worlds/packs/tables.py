"""Print a program's figures as Markdown tables, one a task; rows outside the promise are marked.

python -m tests.worlds.packs.tables package.module:program --rows "map regular,match 1 %" --worlds 20
"""

from __future__ import annotations

import argparse
import importlib
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from tests.worlds.packs.made import Task
from tests.worlds.packs.rows import ROWS, draw
from tests.worlds.packs.score import Cells, offers, try_row


def within(task: Task, row: str, cells: Cells) -> bool:
    """Return whether a row keeps what is promised; a share that cannot be counted breaks nothing."""
    least = 0.85 if row.startswith("map") and row.endswith(" 4") else 0.90
    limits: Mapping[Task, Mapping[str, tuple[float, float]]] = {
        "map": {"held": (least, 0.98)},
        "retest": {"held after, then": (0.90, 1.0), "held after, now": (0.90, 1.0), "widened by a tenth": (0.0, 0.05)},
        "unit": {"held": (0.90, 0.98)},
        "identify": {"sure: right": (0.90, 1.0), "known called none": (0.0, 0.05)},
        "match": {"false matched": (0.0, 0.05), "false not matched": (0.0, 0.05)},
        "health": {"false alarms": (0.0, 0.05)},
        "plan": {"true / stated, rms": (0.7, 1.4)},
    }
    return all(np.isnan(cells[name]) or low <= cells[name] <= high for name, (low, high) in limits[task].items())


def _shown(name: str, value: float) -> str:
    if np.isnan(value):
        return "-"
    if "/" in name:
        return f"{value:.2f}"
    return f"{value:.0f}" if name in ("pairs", "not pairs", "histories") else f"{100.0 * value:.1f} %"


def table(scores: Sequence[tuple[str, Task, Cells]]) -> str:
    """Return one Markdown table a task; rows outside the promise are marked with `<`."""
    blocks = []
    for task in dict.fromkeys(task for _, task, _ in scores):
        rows = [(row, cells) for row, own, cells in scores if own == task]
        heads = [task, *rows[0][1], ""]
        lines = ["| " + " | ".join(heads) + " |", "|" + " --- |" * len(heads)]
        for row, cells in rows:
            shown = [_shown(name, value) for name, value in cells.items()]
            lines.append("| " + " | ".join([row, *shown, "" if within(task, row, cells) else "<"]) + " |")
        blocks.append("\n".join(lines))
    return "\n\n".join(blocks)


def main(arguments: Sequence[str] | None = None) -> None:
    """Print the tables for a `Program` named on the command line."""
    parser = argparse.ArgumentParser(description="Hold answers on packs against made worlds with a known truth.")
    parser.add_argument("program", help="package.module:name of an `answers.Program`")
    parser.add_argument("--rows", default="", help="beginnings of names, comma-separated; all without it")
    parser.add_argument("--worlds", type=int, default=20, help="seeds per row")
    parser.add_argument("--first", type=int, default=0, help="first seed")
    parser.add_argument("--level", choices=("curve", "record"), default="curve")
    asked = parser.parse_args(arguments)
    module, name = asked.program.split(":")
    program: Any = getattr(importlib.import_module(module), name)
    starts = tuple(start.strip() for start in asked.rows.split(","))
    names = [row.name for row in ROWS if row.name.startswith(starts)]
    seeds = range(asked.first, asked.first + asked.worlds)
    offered = [row for row in names if offers(program, draw(row, 0).task)]
    print(table([(row, *try_row(program, row, seeds, asked.level)) for row in offered]))


if __name__ == "__main__":
    main()
