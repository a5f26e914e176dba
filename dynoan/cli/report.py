"""``dynoan report``: one self-contained HTML file to read, print and send."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call, cluster_option, command


@command(epilog="Examples:  dynoan report   or   dynoan report kestrel gravel --out kestrel.html")
@click.argument("what", nargs=-1)
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False), default=Path("report.html"),
              show_default=True, help="The file to write.")  # fmt: skip
@click.option("--title", default="", help="The heading; else what the report is about.")
@cluster_option
def report(call: Call, what: tuple[str, ...], out: Path, title: str) -> int:
    """Write one self-contained HTML report of WHAT: cars, packs or shocks by name; without WHAT, the whole library.

    It needs no script and no network, prints on A4 and Letter, and says how each number was got. Where a name is both
    a car and a pack, write car=NAME or pack=NAME.
    """
    from dynoan.cli.clock import now_text
    from dynoan.cli.report_gather import Gatherer
    from dynoan.errors import LookupFault
    from dynoan.show.files import write_whole
    from dynoan.show.pages.report.build import build_report

    bench = call.workbench()
    if not bench.records:
        raise LookupFault("the library holds no sweeps yet, so there is nothing to report; add some with dynoan add")
    gatherer = Gatherer(call, bench)
    scope = gatherer.scope(what)
    view = gatherer.view(scope, title or _title(bench.library.team, scope.words()), now_text())
    page = build_report(view).encode()
    write_whole(out, page)
    parts = (("run", view.sweeps), ("pack", view.packs), ("car", view.cars))
    held = ", ".join(f"{len(held)} {name}{'' if len(held) == 1 else 's'}" for name, held in parts)
    call.say(f"{out}: {len(page) / 1000:.0f} kB, {held}; open it in a browser, or print it from there")
    return call.result({
        "file": str(out), "bytes": len(page), "runs": len(view.sweeps), "packs": [p.click_map.pack for p in view.packs],
        "shocks": [s.shock.name for s in view.shocks], "cars": [c.car.name for c in view.cars],
        "pairs": [{"shocks": [p.first, p.second], "pack": p.pack, "clicks": p.clicks, "verdict": p.match.verdict}
                  for p in view.pairs],
    })  # fmt: skip


def _title(team: str, about: str) -> str:
    return f"Dyno report, {team}" if team and about == "the whole library" else f"Dyno report, {about}"
