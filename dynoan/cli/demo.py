"""``dynoan demo``: the whole main job on the invented Kestrel, the way a user would do it command by command."""

from __future__ import annotations

import shlex
import time
from concurrent.futures import ThreadPoolExecutor, wait
from contextvars import copy_context
from pathlib import Path

import click

from dynoan.cli.call import DONE, NO, Call
from dynoan.cli.command import command
from dynoan.errors import LibraryError

EPILOG = """\b
Examples:
  dynoan demo
  dynoan demo my-demo
  dynoan demo --files
"""

#: title, and the command line in the demo's library
STEPS: tuple[tuple[str, str], ...] = (
    ("What is in a rig's file, and how it was understood", "read dyno/FL-01_mixed_lsc10_hsc10_lsr10_hsr10.txt"),
    ("Keep all dyno files", "add {dyno}"),
    ("One setting's curve: gas and friction out, knees, slopes, band",
     "curve shock=FR-02,pack=gravel,lsc=10,hsc=10,lsr=10,hsr=10 --plot curve.png"),
    ("The three packs at one setting, tested or not",
     "compare gravel@lsc=8,hsc=8,lsr=8,hsr=8 mixed@lsc=8,hsc=8,lsr=8,hsr=8 tarmac@lsc=8,hsc=8,lsr=8,hsr=8 "
     "--plot packs.png"),
    ("Are the two rear shocks a pair?",
     "match shock=RL-03,pack=gravel,lsc=10,hsc=10,lsr=10,hsr=10 shock=RR-04,pack=gravel,lsc=10,hsc=10,lsr=10,hsr=10"),
    ("Damping ratios of the car as it stands", "ratio kestrel --plot ratio.png"),
    ("Packs and clicks for the targets", "choose kestrel --plot choose.png"),
    ("What was on the car, kept", "setup record kestrel --surface loose --result '2nd of 9' --good --date 2026-03-22"),
    ("Did a change help? Runs in turn, the day's drift taken out", "trial show less-rear-rebound --plot trial.png"),
    ("The car and its pack on pages to print", "report kestrel gravel --no-launch --out report.html"),
    ("All packs at all clicks on the phone", "trackside kestrel --no-launch --out trackside.html"),
)  # fmt: skip
#: how many steps are done when the files are kept, and when the first asks for all packs
ADDED, COMPARED = 2, 3
#: what fits curves and maps, for the workers to import while the first steps run
FITTING = ("dynoan.workbench.fitting_jobs", "dynoan.analysis.fitting.fit", "dynoan.analysis.clickmap.mapping")
#: what a user may go on with
MORE = (
    "identify unlabelled.csv", "health RR-04 --plot health.png", "plan tarmac", "carry kestrel kestrel-winter",
    "launch kestrel --surface loose --plot launch.png", "travel travel/kestrel_loose_run3.csv --car kestrel",
    "bounce travel/kestrel_push_front_left.csv --car kestrel --corner fl --plot push.png",
    "learn travel/kestrel_launch_*.csv --car kestrel --surface loose", "setup list --by surface",
    "report",
)  # fmt: skip


@command(epilog=EPILOG)
@click.argument("folder", type=click.Path(path_type=Path), required=False)
@click.option("--files", is_flag=True, help="Leave only ten files of a dyno shop, in FOLDER (default: from-the-shop): "
              "what the guide's first hour begins with.")  # fmt: skip
def demo(call: Call, folder: Path | None, files: bool) -> int:
    """Make a demo library in FOLDER (default: demo) and run the whole main job on it.

    The data are invented: no real shock was tested. Every step is a command you can run yourself.
    """
    return _leave(call, folder) if files else _run(call, folder or Path("demo"))


def _leave(call: Call, folder: Path | None) -> int:
    from dynoan.jobs.demo.files import NAME, leave_files

    place = folder or Path(NAME)
    left = leave_files(place)
    call.say(f"{len(left)} files of a dyno shop, invented data, are in {place}. Go on with:  dynoan guide start")
    return call.result({"folder": str(place), "files": [str(path) for path in left], "invented": True}, DONE)


def _run(call: Call, folder: Path) -> int:
    from dynoan.batch import kept_workers
    from dynoan.jobs.demo import fit_packs, make_library

    started = time.monotonic()
    make_library(folder)
    call.say(f"The Kestrel's demo library, invented data, in {folder}. Each step below is a command to run there:")
    with kept_workers(*FITTING), ThreadPoolExecutor(1) as beside:
        ran = [run_step(call, folder, *step) for step in STEPS[:ADDED]]
        # What the later steps ask for is fitted while the next one draws.
        fitting = beside.submit(copy_context().run, fit_packs, folder)
        ran += [run_step(call, folder, *step) for step in STEPS[ADDED:COMPARED]]
        wait([fitting])
        ran += [run_step(call, folder, *step) for step in STEPS[COMPARED:]]
    pictures = sorted(p.name for p in folder.glob("*.png"))
    call.say(f"\nDone in {time.monotonic() - started:.0f} s. Left in {folder}:")
    call.say(f"  pictures    {', '.join(pictures)}")
    told = {
        "report": (str(folder / "report.html"), "open it in a browser, or print it"),
        "phone page": (str(folder / "trackside.html"), "copy it to a phone and open it there; no network needed"),
        "library": (str(folder), "go on there with:"),
    }
    wide = max(len(place) for place, _ in told.values())
    for name, (place, words) in told.items():
        call.say(f"  {name:<10}  {place:<{wide}}   {words}")
    for line in MORE:
        call.say(f"    dynoan {line}", typed=True)
    call.say(f"\nAll of it in the browser, with nothing to type:\n  dynoan open {shlex.quote(str(folder))}")
    pages = {"report": str(folder / "report.html"), "trackside": str(folder / "trackside.html")}
    return call.result({"folder": str(folder), "steps": ran, "pictures": pictures, **pages, "invented": True}, DONE)


def run_step(call: Call, folder: Path, title: str, line: str) -> dict[str, object]:
    """Run one command of the demo in its folder, showing what a user would type and see."""
    from dynoan.cli.main import run

    words = [str(w) for part in shlex.split(line) for w in _expand(part, folder)]
    typed = line.replace("{dyno}", "dyno/*")
    call.say(f"\n── {title}\n$ dynoan {typed}", typed=True)
    before = time.monotonic()
    code = run(words, folder=folder, quiet=call.json)
    if code not in (DONE, NO):
        raise LibraryError(f"the demo's step 'dynoan {typed}' failed", hint=f"run it in {folder} with --debug")
    return {"command": typed, "exit": code, "seconds": round(time.monotonic() - before, 2)}


def _expand(part: str, folder: Path) -> list[Path | str]:
    if part == "{dyno}":
        return [p.relative_to(folder) for p in sorted((folder / "dyno").iterdir())]
    return [part]
