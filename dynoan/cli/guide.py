"""``dynoan guide``: the user's guide, offline."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command

EPILOG = """\b
Examples:
  dynoan guide
  dynoan guide start
  dynoan guide --out guide.html
"""


@command(epilog=EPILOG)
@click.argument("topic", required=False)
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False), help="Write it as an HTML page, to print.")
def guide(call: Call, topic: str | None, out: Path | None) -> int:
    """Read the guide: the list of its topics, or the page of one TOPIC."""
    from dynoan.jobs.guide import GuideQuestion, answer

    found = answer(GuideQuestion(topic))
    if out is None:
        return call.show(found)
    size = call.write_page(found, out)
    call.say(f"{out}: {size / 1000:.0f} kB; open it in a browser, or print it from there")
    return call.result({"path": str(out), "bytes": size})
