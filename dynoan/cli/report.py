"""``dynoan report``: one self-contained HTML file to read, print and send."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import cluster_option, command


@command(epilog="Examples:  dynoan report   or   dynoan report kestrel gravel --out kestrel.html")
@click.argument("what", nargs=-1)
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False), default=Path("report.html"),
              show_default=True, help="The file to write.")  # fmt: skip
@click.option("--title", default="", help="The heading; else what the report is about.")
@click.option("--launch/--no-launch", default=True, help="With how the cars leave the line (the default).")
@click.option("--travel", type=click.Path(path_type=Path), multiple=True, metavar="LOG",
              help="With logged travel of the car named; several.")  # fmt: skip
@cluster_option
def report(call: Call, what: tuple[str, ...], out: Path, title: str, launch: bool, travel: tuple[Path, ...]) -> int:
    """Write one self-contained HTML report of WHAT: cars, packs or shocks by name; without WHAT, the whole library.

    It needs no script and no network, prints on A4 and Letter, and says how each number was got. Where a name is both
    a car and a pack, write car=NAME or pack=NAME.
    """
    from dynoan.jobs.report import ReportQuestion, answer
    from dynoan.reading import read_log
    from dynoan.show.text.report import held

    logs = [read_log(path) for path in travel]
    found = answer(call.workbench(), ReportQuestion.asked(*what, title=title, launch=launch, travel=logs))
    written = call.write_page(found, out)
    call.say(f"{out}: {written / 1000:.0f} kB, {held(found)}; open it in a browser, or print it from there")
    return call.result({"file": str(out), "bytes": written, **found.to_dict()})
