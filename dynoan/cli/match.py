"""``dynoan match``: are two shocks or settings a pair, what to turn, and the best pairs of a batch."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.errors import CallError

EPILOG = """\b
Examples:
  dynoan match shock=RL-03,pack=gravel shock=RR-04,pack=gravel
  dynoan match left.csv right.csv --tolerance 8
  dynoan match --pairs pack=gravel  # all shocks with this pack, in pairs
"""


@command(epilog=EPILOG, short_help="Tell whether two shocks or settings are a pair, and what to turn.")
@click.argument("what", metavar="WHAT...", nargs=-1, required=True)
@click.option("--tolerance", default="5 %", show_default=True, help="What a pair may differ by: 5 or '5 %'.")
@click.option("--pairs", is_flag=True, help="Sort everything named into the best pairs.")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def match(call: Call, what: tuple[str, ...], tolerance: str, pairs: bool, plot: Path | None) -> int:
    """Tell whether two shocks or settings are a pair within a tolerance, and what to turn so that they are.

    Each difference has its interval: matched where all lie inside the tolerance, not matched where one lies outside,
    else it cannot be told, and how many more runs would settle it. Where both were tested at several settings, those in
    common are compared. Exit 0 where matched, 1 where not or where it cannot be told.
    """
    from dynoan.jobs import match as matching
    from dynoan.jobs.match import pairs as pairing

    bench = call.workbench(needed=False)
    if pairs:
        return call.show(pairing.answer(bench, pairing.PairsQuestion.asked(what, tolerance)), plot)
    if len(what) != 2:
        raise CallError(f"name two to match, not {len(what)}", hint="or several with --pairs")
    return call.show(matching.answer(bench, matching.MatchQuestion.asked(*what, tolerance)), plot)
