"""A headless Chromium for the pages, opened from file://, with everything it asks for or complains about on record."""

import os
import shutil
from dataclasses import dataclass, field
from pathlib import Path

import pytest

ARGS = [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
    "--disable-sync", "--no-first-run",
]  # fmt: skip
AXE = Path(__file__).parent / "node_modules" / "axe-core" / "axe.min.js"
_OPEN = []
SIZES = ((360, 640), (768, 1024), (1440, 900))


def missing(what):
    if os.environ.get("CI"):
        pytest.fail(f"{what} is missing; .ci/run installs it")
    pytest.skip(f"{what} is missing; .ci/run installs it")


@pytest.fixture(scope="session")
def chromium():
    path = "/usr/bin/chromium" if Path("/usr/bin/chromium").exists() else shutil.which("chromium")
    if path is None:
        missing("chromium")
    sync_api = pytest.importorskip("playwright.sync_api")
    if _OPEN:  # the fixture stands in two places, and two at once cannot be
        yield _OPEN[0]
        return
    with sync_api.sync_playwright() as playwright:
        _OPEN.append(playwright.chromium.launch(executable_path=path, args=ARGS))
        yield _OPEN[0]
        _OPEN.pop().close()


@dataclass
class Seen:
    """What a page did while it was open."""

    requests: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)
    dialogs: list[str] = field(default_factory=list)


@pytest.fixture
def opened(chromium, tmp_path):
    """Open HTML text as a file: `opened(html, width, height, scheme) -> page`; `page.seen` tells what it did."""
    contexts = []

    def open_page(html, width=360, height=640, scheme="light", **kw):
        path = tmp_path / f"page{len(contexts)}.html"
        path.write_text(html, encoding="utf-8")
        context = chromium.new_context(viewport={"width": width, "height": height}, color_scheme=scheme, **kw)
        contexts.append(context)
        page = context.new_page()
        seen = Seen()
        page.seen = seen
        page.on("request", lambda r: seen.requests.append(r.url))
        page.on("console", lambda m: seen.complaints.append(m.text) if m.type in ("error", "warning") else None)
        page.on("pageerror", lambda e: seen.complaints.append(str(e)))
        page.on("dialog", lambda d: (seen.dialogs.append(d.message), d.dismiss()))
        page.goto(path.as_uri())
        return page

    yield open_page
    for context in contexts:
        context.close()


@pytest.fixture(scope="session")
def axe_source():
    if not AXE.exists():
        missing("axe-core (npm install --no-save --prefix tests/browser axe-core)")
    return AXE.read_text(encoding="utf-8")


def serious_faults(page, source):
    """The faults of impact serious or critical that axe finds, each as one line."""
    page.evaluate(source)
    found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    return [
        f"{v['id']}: {n['target']} {n['failureSummary']}"
        for v in found["violations"]
        if v["impact"] in ("serious", "critical")
        for n in v["nodes"]
    ]


LAYOUT_FAULTS = (Path(__file__).parent / "layout.js").read_text(encoding="utf-8")
SMALL_TARGETS = (Path(__file__).parent / "targets.js").read_text(encoding="utf-8")
