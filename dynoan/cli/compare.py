"""``dynoan compare``: packs, clicks, shocks or dates over one another, and stand-in settings."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import cluster_option, command
from dynoan.cli.speeds import HELP, with_units

EPILOG = """\b
Examples:
  dynoan compare gravel@lsc=8,hsc=8 mixed@lsc=8,hsc=8 --plot packs.png
  dynoan compare shock=RL-03,pack=gravel shock=RR-04,pack=gravel
  dynoan compare shock=RR-04,date=2025 shock=RR-04,date=2026  # over time
  dynoan compare --equal-to gravel@lsc=6,lsr=8 mixed tarmac   # stand-ins
"""


@command(epilog=EPILOG, short_help="Lay packs, clicks or shocks over one another.")
@click.argument("what", metavar="WHAT...", nargs=-1)
@click.option("--equal-to", metavar="WHAT", help="Find the clicks of the packs or shocks named that stand in for this.")
@click.option("--at", metavar="SPEEDS", help=HELP)
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
@cluster_option
def compare(call: Call, what: tuple[str, ...], equal_to: str | None, at: str | None, plot: Path | None) -> int:
    """Lay packs, clicks or shocks over one another: force and difference by velocity, where they cross, who has a say.

    WHAT is a rig's file, a sweep's id, or a setting (pack=gravel,lsc=6 or gravel@lsc=6,lsr=8 or shock=RL-02,date=2026).
    With --equal-to, WHAT names packs, or shocks as shock=NAME; without any, all other packs are searched.
    """
    from dynoan.jobs import compare as comparing
    from dynoan.jobs import equal_to as standing_in

    bench = call.workbench(needed=False)
    if equal_to is not None:
        return call.show(standing_in.answer(bench, standing_in.EqualToQuestion(equal_to, what)), plot)
    return call.show(comparing.answer(bench, comparing.CompareQuestion.asked(*what, at=with_units(call, at))), plot)
