"""``dynoan identify``: which known pack and clicks an unknown sweep is."""

from __future__ import annotations

import click

from dynoan.cli.call import Call
from dynoan.cli.command import cluster_option, command

EPILOG = """\b
Examples:
  dynoan identify unlabelled.csv
  dynoan identify unlabelled.csv --packs gravel,mixed
"""


@command(epilog=EPILOG, short_help="Tell which known pack and clicks an unknown sweep is.")
@click.argument("what", metavar="FILE")
@click.option("--packs", help="Only these packs, such as gravel,mixed; else all in the library.")
@click.option(
    "--shock",
    help="The shock it is in, where known: clicks are as it counts, packs are held against it as it is, worn or not.",
)
@cluster_option
def identify(call: Call, what: str, packs: str | None, shock: str | None) -> int:
    """Tell which known pack and clicks FILE is: a rig's file, or a sweep's id.

    Every click of every pack is tried. "None of these" and "cannot tell" are answers too: exit 1.
    """
    from dynoan.jobs.identify import IdentifyQuestion, answer

    question = IdentifyQuestion.asked(what, packs=packs, shock=shock)
    return call.show(answer(call.workbench(needed=False), question))
