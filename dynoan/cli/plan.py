"""``dynoan plan``: which runs to test next, and what each is worth."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, Call, command

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.mapping import Tested
    from dynoan.analysis.clickmap.plan import Plan
    from dynoan.model.shock import Adjuster, Shock
    from dynoan.workbench import Workbench

EPILOG = """\b
Examples:
  dynoan plan gravel
  dynoan plan newpack --shock FL-01 --runs 6 --sheet runs.html
"""


@command(epilog=EPILOG, short_help="Say which runs to test next, and what each is worth.")
@click.argument("pack")
@click.option("--runs", type=int, default=4, show_default=True, help="How many runs to plan.")
@click.option("--shock", help="The shock that will carry the pack; needed where no sweep of the pack is kept yet.")
@click.option("--top", default="0.5", show_default=True, help="Highest speed to run for a new pack: m/s, or '20 in/s'.")
@click.option("--sheet", type=click.Path(path_type=Path, dir_okay=False),
              help="Write a sheet for the dyno shop: .html to print, .txt, or .csv with blanks to fill.")  # fmt: skip
def plan(call: Call, pack: str, runs: int, shock: str | None, top: str, sheet: Path | None) -> int:
    """Say which runs of PACK to pay for next: the clicks and speeds that lower the expected error most.

    The error is the expected mean error of force over all clicks, speeds and both directions. A run worth less than
    0.15 % is marked: stop there.
    """
    from dynoan.analysis.clickmap.plan import plan as make_plan
    from dynoan.jobs.ratio import shock_velocity

    bench = call.workbench()
    counting, adjusters, tested = _known(bench, pack, shock)
    made = make_plan(pack, adjusters, tested, count=runs, top=shock_velocity(top, "top"))
    if not tested:
        call.warn(f"no sweep of pack {pack} yet: the plan rests on what such valves are usually like; plan again after "
                  "the first runs")  # fmt: skip
    if not adjusters:
        call.warn("no adjusters are known for this pack; name its shock with --shock, or add shocks/NAME.toml")
    _show(call, made, counting)
    if sheet is not None:
        call.note(f"sheet: {_write(call, bench, made, counting, sheet)}")
    return call.result(_json(made, counting), DONE)


def _known(bench: Workbench, pack: str, shock: str | None) -> tuple[Shock, tuple[Adjuster, ...], tuple[Tested, ...]]:
    """Return the counting, the adjusters and the tested settings of a pack; of a new one, those of its shock.

    Raises
    ------
    CallError
        If the pack is new and no shock is named.
    """
    from dynoan.errors import CallError

    if pack in bench.library.packs():
        map = bench.click_map(pack)
        return bench.counting_of(map, shock), map.adjusters, bench.tested(pack=pack)
    if shock is None:
        have = ", ".join(bench.library.packs()) or "none"
        raise CallError(f"no sweep of pack '{pack}' (packs here: {have}); for a new one name its shock: --shock NAME")
    named = bench.shock(shock)
    return named, named.adjusters, ()


def _show(call: Call, made: Plan, counting: Shock) -> None:
    from dynoan.show.text.tables import table
    from dynoan.units import shown

    if call.json:
        return
    velocity = shown("velocity", call.shown_units)
    digits = 1 if call.shown_units == "us" else 0
    names = list(made.runs[0].from_closed)
    tests = f"{made.tests} tested setting{'s' if made.tests != 1 else ''}"
    call.say(f"pack {made.pack}, {tests}: expected error now {made.error_now:.1f} %; {counting.counted_words()}")
    rows = []
    for i, run in enumerate(made.runs, start=1):
        clicks = counting.to_counted(run.from_closed)
        speeds = " ".join(f"{velocity.number(s):.{digits}f}" for s in run.speeds)
        rows.append([str(i), *(str(clicks[n]) for n in names), f"{run.gain:.2f} %", f"{run.error_after:.2f} %",
                     "yes" if run.worth_it else "no", speeds])  # fmt: skip
    table(["run", *names, "takes off", "leaves", "worth it", f"peak velocities {velocity.unit}"], rows)
    call.say(_stop_words(made))


def _stop_words(made: Plan) -> str:
    if made.stop_after == 0:
        return "stop: no further run is worth its money"
    if made.stop_after < len(made.runs):
        return f"stop after run {made.stop_after}: what follows takes off less than 0.15 %"
    return f"all {len(made.runs)} are worth running; plan again after them"


def _write(call: Call, bench: Workbench, made: Plan, counting: Shock, path: Path) -> Path:
    from dynoan.show.files import write_whole
    from dynoan.show.pages.plan_sheet import Sheet, SheetRun, sheet_text

    runs = [SheetRun(counting.to_counted(run.from_closed), run.speeds) for run in made.runs if run.worth_it]
    runs = runs or [SheetRun(counting.to_counted(run.from_closed), run.speeds) for run in made.runs]
    named = counting.name if counting.stated else ""
    sheet = Sheet(made.pack, counting.counted_words(), runs, bench.library.team, named)
    write_whole(path, sheet_text(sheet, path.suffix.lower(), call.shown_units).encode("utf-8"))
    return path


def _json(made: Plan, counting: Shock) -> dict[str, Any]:
    return {
        "runs": [{"clicks": counting.to_counted(run.from_closed), "expected_gain_pct": run.gain,
                  "error_after_pct": run.error_after, "speeds_m_s": run.speeds, "worth_it": run.worth_it}
                 for run in made.runs],
        "error_now_pct": made.error_now, "error_after_pct": made.error_after, "stop_after": made.stop_after,
        "pack": made.pack, "tests": made.tests,
    }  # fmt: skip
