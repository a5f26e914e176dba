"""A headless Chromium for the pages, opened from file://, with everything it asks for or complains about on record."""

import os
import shutil
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import pytest

ARGS = [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
    "--disable-sync", "--no-first-run",
]  # fmt: skip
AXE = Path(__file__).parent / "node_modules" / "axe-core" / "axe.min.js"
PATIENCE_MS = 300_000  #: a busy machine is no fault
_OPEN = []
EVERY = ("minor", "moderate", "serious", "critical")  #: impact of what axe finds
SIZES = ((360, 640), (768, 1024), (1440, 900))


def missing(what):
    if os.environ.get("CI"):
        pytest.fail(f"{what} is missing; .ci/run installs it")
    pytest.skip(f"{what} is missing; .ci/run installs it")


class Pages:
    """A browser whose pages are lent one after another: one that is there shows the next for a fifth of a new one."""

    def __init__(self, browser):
        self._browser = browser
        self._idle = {}

    @contextmanager
    def lent(self, width, height, scheme="light", *, bypass_csp=False, own=False, **odd):
        """Give a page that knows nothing of those before it; one of `odd` habits is its own and goes away.

        So is one that is shown anew (`own`): what was cleared for it may else go late, after its first tap.
        """
        page = self._page(bypass_csp, odd, own=own)
        page.set_viewport_size({"width": width, "height": height})
        page.emulate_media(media="screen", color_scheme=scheme)
        page.set_default_timeout(PATIENCE_MS)
        page.seen = Seen()
        heard = _hear(page)
        try:
            yield page
        finally:
            for event, handler in heard.items():
                page.remove_listener(event, handler)
            if odd or own or not _forget(page):
                page.context.close()
            else:
                self._idle[bypass_csp].append(page)

    def _page(self, bypass_csp, odd, *, own):
        idle = self._idle.setdefault(bypass_csp, [])
        if idle and not odd and not own:
            return idle.pop()
        return self._browser.new_context(bypass_csp=bypass_csp, accept_downloads=True, **odd).new_page()


def _hear(page):
    """Let a page keep on record what it asks for and complains about; return who listens to what."""
    seen = page.seen
    heard = {
        "request": lambda r: seen.requests.append(r.url),
        "console": lambda m: seen.complaints.append(m.text) if m.type in ("error", "warning") else None,
        "pageerror": lambda e: seen.complaints.append(str(e)),
        "dialog": lambda d: (seen.dialogs.append(d.message), d.dismiss()),
    }
    for event, handler in heard.items():
        page.on(event, handler)
    return heard


def _forget(page):
    """Take from a page all that it and its site remember; return whether that could be done."""
    try:
        for other in page.context.pages:
            if other is not page:
                other.close()
        page.unroute_all(behavior="ignoreErrors")  # what a test that failed still holds back, the next would wait for
        page.evaluate("() => { localStorage.clear(); sessionStorage.clear(); }")
        page.context.clear_cookies()
        page.goto("about:blank")
    except Exception:  # on a page that failed, whatever way it did: it is not used again
        return False
    return not page.is_closed()


@pytest.fixture(scope="session")
def chromium():
    # The shell is the same engine without windows, and takes a third of the time.
    path = shutil.which("chromium-headless-shell") or shutil.which("chromium")
    if path is None:
        missing("chromium")
    sync_api = pytest.importorskip("playwright.sync_api")
    if _OPEN:  # the fixture stands in two places, and two at once cannot be
        yield _OPEN[0]
        return
    with sync_api.sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=ARGS)
        _OPEN.append(Pages(browser))
        yield _OPEN[0]
        _OPEN.pop()
        browser.close()


@dataclass
class Seen:
    """What a page did while it was open."""

    requests: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)
    dialogs: list[str] = field(default_factory=list)


@pytest.fixture
def opened(chromium, tmp_path):
    """Open HTML text as a file: `opened(html, width, height, scheme) -> page`; `page.seen` tells what it did."""
    with ExitStack() as lent:

        def open_page(html, width=360, height=640, scheme="light", **odd):
            path = tmp_path / f"page{len(list(tmp_path.glob('page*.html')))}.html"
            path.write_text(html, encoding="utf-8")
            page = lent.enter_context(chromium.lent(width, height, scheme, **odd))
            page.goto(path.as_uri())
            return page

        yield open_page


@pytest.fixture(scope="session")
def axe_source():
    if not AXE.exists():
        missing("axe-core (npm install --no-save --prefix tests/browser axe-core)")
    return AXE.read_text(encoding="utf-8")


def serious_faults(page, source, impacts=("serious", "critical")):
    """The faults of impact serious or critical, or of others, that axe finds, each as one line."""
    page.evaluate(source)
    found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    return [
        f"{v['id']}: {n['target']} {n['failureSummary']}"
        for v in found["violations"]
        if v["impact"] in impacts
        for n in v["nodes"]
    ]


LAYOUT_FAULTS = (Path(__file__).parent / "layout.js").read_text(encoding="utf-8")
WEAK_EDGES = (Path(__file__).parent / "contrast.js").read_text(encoding="utf-8")
SMALL_TARGETS = (Path(__file__).parent / "targets.js").read_text(encoding="utf-8")
HIDDEN_FOCUS = (Path(__file__).parent / "focus.js").read_text(encoding="utf-8")


def hidden_focus(page, most=150):
    """Go through a page with the tab key; return at how many places it stopped, and those that nobody sees."""
    hidden, stops = [], 0
    for _ in range(most):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement === document.body"):
            break
        stops += 1
        found = page.evaluate(HIDDEN_FOCUS)
        hidden += [found] if found else []
    return stops, hidden
