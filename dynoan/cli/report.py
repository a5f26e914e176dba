"""``dynoan report``: one self-contained HTML file to read, print and send."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from dynoan.cli.call import Call
from dynoan.cli.command import cluster_option, command
from dynoan.cli.log_options import travel_options, travel_question
from dynoan.errors import CallError

EPILOG = """\b
Examples:
  dynoan report
  dynoan report kestrel gravel --out kestrel.html
  dynoan report kestrel --travel run3.csv --scale "25 mm per V"
"""


@command(epilog=EPILOG)
@click.argument("what", nargs=-1)
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False), default=Path("report.html"),
              show_default=True, help="The file to write.")  # fmt: skip
@click.option("--title", default="", help="The heading; else what the report is about.")
@click.option("--launch/--no-launch", default=True, help="With how the cars leave the line (the default).")
@click.option("--travel", type=click.Path(path_type=Path), multiple=True, metavar="LOG",
              help="With logged travel of the car named; several.")  # fmt: skip
@travel_options
@cluster_option
def report(
    call: Call, what: tuple[str, ...], out: Path, title: str, launch: bool, travel: tuple[Path, ...], **told: Any
) -> int:  # fmt: skip
    """Write one self-contained HTML report of WHAT: cars, packs or shocks by name; without WHAT, the whole library.

    It needs no script and no network, prints on A4 and Letter, and says how each number was got. Where a name is both
    a car and a pack, write car=NAME or pack=NAME. What the columns of the logs with --travel do not say is told as for
    `dynoan travel`: --corner, --scale, --zero, --part, --time and --window, the same for all of them.
    """
    from dynoan.jobs.report import ReportQuestion, answer
    from dynoan.show.text.report import held

    without = next((name for name, value in told.items() if value and not travel), None)
    if without is not None:
        raise CallError("it tells of logs, and none is given", hint="name them with --travel LOG", part=without)
    logs = [travel_question(path, told) for path in travel]
    found = answer(call.workbench(), ReportQuestion.asked(*what, title=title, launch=launch, travel=logs))
    written = call.write_page(found, out)
    call.say(f"{out}: {written / 1000:.0f} kB, {held(found)}; open it in a browser, or print it from there")
    return call.result({"file": str(out), "bytes": written, **found.to_dict()})
