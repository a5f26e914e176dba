"""The pages in headless Chromium: from tap to redraw, and from opening to drawn, against what a person notices.

The peer is no program but the limit set for the page: 50 ms from a tap to its redraw, 1 s to open, 2 MB and 5 MB of
size. A tap is timed from the click to the frame after its redraw is laid out, on the made-up car with three packs.
"""

from __future__ import annotations

import statistics
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from dynoan.show.pages.trackside.build import build_trackside
from tests.browser.conftest import ARGS
from tests.show.cars import made_view
from tests.show.reports import usual_report

TAPS, OPENINGS = 100, 7
TAP = """async (taps) => {
  const script = [], painted = [];
  const buttons = [...document.querySelectorAll("[data-adjuster=lsc] button")];
  for (let i = 0; i < taps; i += 1) {
    await new Promise((done) => requestAnimationFrame(done));
    const start = performance.now();
    buttons[i % 2].click();
    document.body.getBoundingClientRect();
    script.push(performance.now() - start);
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
    painted.push(performance.now() - start);
  }
  return [script, painted];
}"""
OPENED = """() => { const t = performance.getEntriesByType("navigation")[0];
  const p = performance.getEntriesByType("paint").find((e) => e.name === "first-contentful-paint");
  return Math.max(t.loadEventEnd, p ? p.startTime : 0); }"""


def _opening(page: Page, url: str) -> float:
    times = []
    for _ in range(OPENINGS):
        page.goto(url)
        page.wait_for_timeout(100)
        times.append(page.evaluate(OPENED))
    return statistics.median(times)


def _row(what: str, milliseconds: float, limit: float, n: str) -> dict[str, object]:
    return {"what": what, "ours": f"{milliseconds:.1f} ms", "peer": f"{limit:.0f} ms allowed",
            "ratio": f"{milliseconds / limit:.2f}", "n": n}  # fmt: skip


def rows() -> list[dict[str, object]]:
    """Time both pages and weigh them."""
    pages = {"trackside": build_trackside(made_view()), "report": usual_report()[1]}
    limits = {"trackside": 2.0, "report": 5.0}
    out: list[dict[str, object]] = []
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=ARGS)
        page = browser.new_page(viewport={"width": 360, "height": 640})
        for name, html in pages.items():
            path = Path(folder) / f"{name}.html"
            path.write_text(html, encoding="utf-8")
            out.append(_row(f"{name} page: from opening to drawn", _opening(page, path.as_uri()), 1000.0,
                            f"{OPENINGS} openings"))  # fmt: skip
            size = len(html.encode()) / 1e6
            limit = limits[name]
            out.append({"what": f"{name} page: size", "ours": f"{size:.2f} MB", "peer": f"{limit:.0f} MB allowed",
                        "ratio": f"{size / limit:.2f}", "n": "1 car, 3 packs"})  # fmt: skip
        page.goto((Path(folder) / "trackside.html").as_uri())
        script, painted = page.evaluate(TAP, TAPS)
        browser.close()
    out.append(_row("trackside page: tap to numbers and curve laid out", statistics.median(script), 50.0,
                    f"{TAPS} taps"))  # fmt: skip
    out.append(_row("trackside page: tap to the frame after", statistics.median(painted), 50.0, f"{TAPS} taps"))
    out.append(_row("trackside page: the slowest of 20 taps to the frame after", sorted(painted)[-TAPS // 20], 50.0,
                    f"{TAPS} taps"))  # fmt: skip
    return out
