"""``dynoan trackside``: one HTML file for the phone in the pits."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import cluster_option, command


@command(epilog="Example:  dynoan trackside kestrel --out kestrel.html")
@click.argument("car")
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False), default=Path("trackside.html"),
              show_default=True, help="The file to write.")  # fmt: skip
@click.option("--pack", "packs", multiple=True, metavar="PACK", help="A pack to hold; give it again for more. "
              "Without it, every tested pack.")  # fmt: skip
@click.option("--launch/--no-launch", default=True, help="With how the car leaves the line (the default).")
@cluster_option
def trackside(call: Call, car: str, out: Path, packs: tuple[str, ...], launch: bool) -> int:
    """Write one self-contained HTML page of CAR that works on a phone without a network.

    It holds every pack at every click: damping ratios, forces and curves as clicks, springs and corner weights change;
    the ranked choices for the car's targets; the last setups. A setup noted on the page is saved as a file that
    'dynoan setup record --from FILE' keeps. Copy the file to the phone and open it in a browser.
    """
    from dynoan.jobs.trackside import TracksideQuestion, answer
    from dynoan.show.text.trackside import held

    found = answer(call.workbench(), TracksideQuestion.asked(car, packs=packs, launch=launch))
    written = call.write_page(found, out)
    call.say(f"{out}: {written / 1000:.0f} kB, {held(found)}; open it in the phone's browser")
    return call.result({"file": str(out), "bytes": written, **found.to_dict()})
