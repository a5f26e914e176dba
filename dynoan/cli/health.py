"""``dynoan health``: a shock or a pack against its own earlier tests."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command

EPILOG = """\b
Examples:
  dynoan health RR-04 --plot health.png
  dynoan health RR-04 --since 2026-01-01
"""


@command(epilog=EPILOG, short_help="Hold a shock against its own earlier tests.")
@click.argument("name", metavar="SHOCK")
@click.option("--since", metavar="DATE", help="Leave out tests before this date (2026-01-31): a new baseline.")
@click.option(
    "--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw the trend to a PNG, SVG or PDF file."
)
def health(call: Call, name: str, since: str | None, plot: Path | None) -> int:
    """Hold SHOCK (or a pack) now against its first tests: force by direction, gas, friction, delayed rise, fade.

    Tests of one date are a session; the last session is held against the first. Exit 0 where it is as before, 1 where
    it changed or it cannot be told.
    """
    from dynoan.jobs.health import HealthQuestion, answer

    bench = call.workbench()
    return call.show(answer(bench, HealthQuestion.asked(name, since=since)), plot)
