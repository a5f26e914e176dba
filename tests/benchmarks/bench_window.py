"""The window in headless Chromium: pages, a turned click, dropped files to curves, a library of 10,000 sweeps.

All of it:  python -m tests.benchmarks.run window

Beside the wall times stand processor times, of the program and of the page, which a busy machine changes less. A page
counts until it is loaded, a turned click until two frames after the curves were drawn anew. The window runs in a
process of its own, as `dynoan open` starts it, the program compiled as an installed one is; its memory is the resident
set after all screens were seen. Files are dropped a second after the page is there: nobody is faster.
"""

from __future__ import annotations

import compileall
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import psutil
from playwright.sync_api import Error, Page, sync_playwright

from tests.browser.conftest import ARGS

DEMO = Path(__file__).parents[2] / "fixtures" / "demo"
SCREENS = ("/files", "/packs", "/curves?s=gravel@lsc=4&s=tarmac&s=mixed", "/car?car=kestrel", "/log")
TURNS, PAGES, MANY = 60, 8, 10_000
TO_DROP = 1.0  #: that somebody takes at the least from seeing the page to dropping files [s]
_BUTTON = ".setting:nth-of-type({}) .turns button:{}-child"
_TURN = """async (selector) => {
  const begun = performance.now();
  const drawn = new Promise((r) => document.addEventListener("turned", () =>
    requestAnimationFrame(() => setTimeout(() => r(performance.now() - begun), 0)), {once: true}));
  document.querySelector(selector).click();
  return drawn;
}"""


@contextmanager
def window(folder: Path) -> Iterator[tuple[str, psutil.Process]]:
    """Start a window; give its address and its process."""
    command = [sys.executable, "-m", "dynoan", "open", str(folder), "--no-browser", "--port", "18400"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, stderr=subprocess.DEVNULL) as started:
        assert started.stdout is not None
        try:
            yield started.stdout.readline().strip(), psutil.Process(started.pid)
        finally:
            started.terminate()
            started.wait(10)


@contextmanager
def browser() -> Iterator[Page]:
    """Give a page of a fresh browser."""
    with sync_playwright() as playwright:
        found = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=ARGS)
        yield found.new_context(viewport={"width": 1280, "height": 800}).new_page()
        found.close()


def loaded(page: Page, address: str) -> float:
    """Milliseconds until a page is loaded."""
    page.goto(address, wait_until="load")
    timing = page.evaluate("(e => e.loadEventEnd - e.startTime)(performance.getEntriesByType('navigation')[0])")
    return float(timing)


def seen(page: Page, address: str) -> None:
    """Open a page; one that shows by itself what has become ready meanwhile may come in between."""
    for _ in range(3):
        try:
            page.goto(address)
            return
        except Error as error:
            if "interrupted by another navigation" not in str(error):
                raise


def idle(page: Page, base: str) -> None:
    """Wait until no work is under way."""
    while page.context.request.get(f"{base}/state").json()["works"]:
        time.sleep(0.1)


@dataclass(frozen=True)
class Turning:
    """Clicks turned one after the other, each waited for."""

    wall: list[float]  #: [ms]
    program: float  #: processor time of a turn [ms]
    page: float  #: of the page's own thread, drawing in it [ms]


def turning(page: Page, process: psutil.Process, buttons: list[str]) -> Turning:
    """Turn clicks by their buttons."""
    devtools = page.context.new_cdp_session(page)
    devtools.send("Performance.enable")

    def busy() -> float:
        found = {one["name"]: one["value"] for one in devtools.send("Performance.getMetrics")["metrics"]}
        return float(found["TaskDuration"])

    began, drawing = processor(process), busy()
    wall = [float(page.evaluate(_TURN, button)) for button in buttons]
    each = 1000 / len(buttons)
    return Turning(wall, each * (processor(process) - began), each * (busy() - drawing))


def processor(process: psutil.Process) -> float:
    """Seconds of processor time of a process and what it began."""
    times = [one.cpu_times() for one in (process, *process.children(recursive=True))]
    return float(sum(one.user + one.system + one.children_user + one.children_system for one in times))


def p95(times: list[float]) -> float:
    """The time that 95 % keep."""
    return sorted(times)[max(0, round(0.95 * len(times)) - 1)]


def dropped(page: Page, base: str) -> float:
    """Seconds from dropping 22 files until the curves of all their packs are drawn."""
    begun = time.perf_counter()
    with page.expect_navigation(wait_until="load"):
        page.locator("#files").set_input_files([str(p) for p in sorted((DEMO / "dyno").iterdir())])
    page.get_by_role("button", name="Keep all 22").click()
    page.wait_for_load_state()
    page.goto(f"{base}/curves?s=gravel&s=mixed&s=tarmac")
    page.locator("svg.curve path.line").nth(2).wait_for(timeout=120_000)
    return time.perf_counter() - begun


def many(folder: Path, count: int = MANY) -> None:
    """Make a library of so many sweeps: one run's file copied with another id, its own settings."""
    from dynoan.library import Library
    from dynoan.library.sweep_file import decode, encode
    from dynoan.reading import read

    library = Library.create(folder)
    run = DEMO / "dyno" / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"
    library.add(read(run)[0], run.read_bytes())
    (first,) = (folder / "sweeps").glob("*.h5")
    kept = decode(first.read_bytes(), first.name)
    from dataclasses import replace

    small = {k: v[:64] for k, v in kept.sweep.channels.items()}
    for i in range(count - 1):
        clicks = {"lsc": i % 21, "hsc": i // 21 % 21, "lsr": i // 441 % 21, "hsr": 10}
        sweep = replace(kept.sweep, channels=small, shock=f"S-{i % 40:02}", pack=f"pack {i % 12}", clicks=clicks)
        (folder / "sweeps" / f"{i:010x}.h5").write_bytes(encode(replace(kept, sweep=sweep, original=b"x")))


def small_library(scratch: Path) -> list[dict[str, Any]]:
    """The rows of W1."""
    folder = scratch / "team"
    with window(folder) as (address, process), browser() as page:
        page.goto(address)
        base = address.partition("/enter")[0]
        page.wait_for_timeout(1000 * TO_DROP)
        began = processor(process)
        files = dropped(page, base)
        fitting = processor(process) - began
        for part in ("cars", "shocks"):
            shutil.copytree(DEMO / part, folder / part, dirs_exist_ok=True)
        for path in ("/packs", *SCREENS):
            seen(page, base + path)
            idle(page, base)
        page.wait_for_timeout(1000)  # what was shown last may come anew
        pages = {path: [loaded(page, base + path) for _ in range(PAGES)] for path in SCREENS}
        page.goto(base + SCREENS[2])
        ends = ("first", "last")
        turns = turning(page, process, [_BUTTON.format(1 + i % 3, ends[i % 2]) for i in range(TURNS)])
        page.goto(f"{base}/car?car=kestrel")
        car = turning(page, process, [f".turns button:{ends[i % 2]}-child" for i in range(TURNS // 2)])
    slowest = max(pages, key=lambda path: statistics.median(pages[path]))
    rows = [
        row("a page, median", path.partition("?")[0], f"{statistics.median(times):.0f} ms", "200 ms", 200)
        for path, times in pages.items()
    ]
    return [
        *rows,
        row("the slowest page, 95 %", slowest.partition("?")[0], f"{p95(pages[slowest]):.0f} ms", "200 ms", 200),
        *turned("a click turned, three curves redrawn", turns),
        *turned("a click on the car, ratios shown anew", car),
        row("files dropped to all curves", "22 files", f"{files:.1f} s", "5 s", 5),
        row("processor time of that, program and its workers", "22 files", f"{fitting:.1f} s", "two cores' 5 s", 10),
    ]


def turned(what: str, found: Turning) -> list[dict[str, Any]]:
    """The rows of a click."""
    size = f"{len(found.wall)} clicks"
    return [
        row(f"{what}, 95 %", size, f"{p95(found.wall):.0f} ms", "100 ms", 100),
        row("the same, median", size, f"{statistics.median(found.wall):.0f} ms", "100 ms", 100),
        row("processor time of the program", size, f"{found.program:.0f} ms", "100 ms", 100),
        row("processor time of the page", size, f"{found.page:.0f} ms", "100 ms", 100),
    ]


def large_library(scratch: Path) -> list[dict[str, Any]]:
    """The rows of W2."""
    folder = scratch / "many"
    many(folder)
    with window(folder) as (address, process), browser() as page:
        begun = time.perf_counter()
        page.goto(address)
        first = time.perf_counter() - begun
        base = address.partition("/enter")[0]
        packs = [loaded(page, f"{base}/packs") for _ in range(4)]
        page.goto(f"{base}/log")
        memory = process.memory_info().rss / 1e6
    return [
        row("a library opens: first page of a fresh window", f"{MANY} sweeps", f"{first:.2f} s", "1 s", 1),
        row("the screen of all packs, first and after", f"{MANY} sweeps",
            f"{packs[0] / 1000:.2f} s, {statistics.median(packs[1:]) / 1000:.2f} s", "1 s", 1),
        row("memory of the window", f"{MANY} sweeps", f"{memory:.0f} MB", "400 MB", 400),
    ]  # fmt: skip


def row(what: str, size: str, ours: str, limit: str, most: float) -> dict[str, Any]:
    """One row of the table."""
    found = float(ours.split()[0])
    return {"what": what, "n": size, "ours": ours, "peer": f"at most {limit}", "ratio": f"{found / most:.2f}"}


def rows() -> list[dict[str, Any]]:
    """The rows of the table."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    for package in ("dynoan", "importers"):
        compileall.compile_dir(DEMO.parents[1] / package, quiet=1)
    with tempfile.TemporaryDirectory(prefix="window-") as folder:
        parts = (("W1", small_library(Path(folder))), ("W2", large_library(Path(folder))))
        return [found | {"what": f"{target}: {found['what']}"} for target, some in parts for found in some]
