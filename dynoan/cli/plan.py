"""``dynoan plan``: which runs to test next, and what each is worth."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.speeds import with_units

EPILOG = """\b
Examples:
  dynoan plan gravel
  dynoan plan newpack --shock FL-01 --runs 6 --sheet runs.html
"""


@command(epilog=EPILOG, short_help="Say which runs to test next, and what each is worth.")
@click.argument("pack")
@click.option("--runs", type=int, default=4, show_default=True, help="How many runs to plan.")
@click.option("--shock", help="The shock that will carry the pack; needed where no sweep of the pack is kept yet.")
@click.option("--top", default="0.5 m/s", show_default=True,
              help="Highest speed to run for a new pack, with a unit or in the unit of the tables shown.")  # fmt: skip
@click.option("--sheet", type=click.Path(path_type=Path, dir_okay=False),
              help="Write a sheet for the dyno shop: .html to print, .txt, or .csv with blanks to fill.")  # fmt: skip
def plan(call: Call, pack: str, runs: int, shock: str | None, top: str, sheet: Path | None) -> int:
    """Say which runs of PACK to pay for next: the clicks and speeds that lower the expected error most.

    The error is the expected mean error of force over all clicks, speeds and both directions. A run worth less than
    0.15 % is marked: stop there.
    """
    from dynoan.jobs.plan import PlanQuestion, answer, sheet_form
    from dynoan.show.presenting import save

    if sheet is not None:
        sheet_form(sheet.suffix)  # before anything is reckoned
    bench = call.workbench()
    found = answer(bench, PlanQuestion.asked(pack, runs=runs, shock=shock, top=with_units(call, top, "top")))
    written = None if sheet is None else save(found, call.shown_units, sheet, force=call.force)
    code = call.show(found)
    if written is not None:
        call.note(f"sheet: {written}")
    return code
