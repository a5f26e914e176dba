"""How often 95 % bands hold the truth of worlds made apart from the fit, row by row, as one Markdown table.

    python -m tests.benchmarks.bench_worlds --records 200 --first 1000 --jobs 2 [--rows "clean,any"]

Seeds from 1000 on were not used in developing.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence

from tests.worlds.rows import ROWS
from tests.worlds.score import table, try_row
from tests.worlds.with_dynoan import fit

#: seeds from here on were kept out of developing
UNSEEN = 1000


def main(arguments: Sequence[str] | None = None) -> None:
    """Print the table, and how many rows keep to what is promised."""
    parser = argparse.ArgumentParser(description="Hold fitted curves against made worlds.")
    parser.add_argument("--records", type=int, default=200, help="seeds a row")
    parser.add_argument("--first", type=int, default=UNSEEN, help="first seed")
    parser.add_argument("--jobs", type=int, default=1, help="processes")
    parser.add_argument("--rows", default="", help="names, comma-separated; all without it")
    asked = parser.parse_args(arguments)
    names = [row.strip() for row in asked.rows.split(",")] if asked.rows else [row.name for row in ROWS]
    seeds = range(asked.first, asked.first + asked.records)
    scores = [try_row(fit, name, seeds, asked.jobs) for name in names]
    print(table(scores))
    print(f"\n{sum(one.honest() for one in scores)} of {len(scores)} rows hold 90 to 98 % within 1.5 times the error; "
          f"{sum(one.held >= 0.85 for one in scores)} hold 85 % or more")  # fmt: skip


if __name__ == "__main__":
    main()
