"""A long random use of the window, on demand:  python -m tests.window.soak ACTIONS [SECONDS] [SEED]

It starts `dynoan open` on a new library, lays some of the demo's files there, and then asks and sends whatever a user
could; every so often a real browser opens a screen and presses something on it. It tells every answer that is a fault
of the program, what the program wrote to its log, its memory on the way, and whether the library is whole after.

Memory is told as what the process holds alone and with the libraries that it maps: those of pictures, tables and
machine code come with the first page, log and launch that ask for them, so one of each is made before it is counted.
"""

from __future__ import annotations

import html
import random
import re
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import psutil
from playwright.sync_api import Error as BrowserError
from playwright.sync_api import Page, sync_playwright

from dynoan.library import Library
from tests.browser.conftest import ARGS

DEMO = Path(__file__).parents[2] / "fixtures" / "demo"
PACKS = ("gravel", "mixed", "tarmac")
#: what is kept of the demo: every change has a pack fitted anew, and 20,000 actions are not to be fits alone
KEPT = re.compile(r"tarmac|FL-01_gravel_lsc10|FL-01_mixed_lsc10_hsc1")
PRESSED = "main button:visible, main summary:visible, nav a, main a[href^='/']:visible"
#: what the browser says where a press before, or a file that is saved by it, takes the page elsewhere meanwhile
OVERTAKEN = ("interrupted by another navigation", "net::ERR_ABORTED")
SCREENS = ("/files", "/packs", "/curves", "/car", "/log", "/help", "/packs/runs?pack=gravel", "/car/edit?car=kestrel")


class Soak:
    """One random user."""

    def __init__(self, browser: httpx.Client, page: Page, library: Path, seed: int) -> None:
        self.browser, self.page, self.library, self.dice = browser, page, library, random.Random(seed)
        page.on("response", lambda r: self.faults.append(f"{r.url}: {r.status}") if r.status >= 500 else None)
        page.on("pageerror", lambda error: self.faults.append(f"{page.url}: {error}"))
        self.spent: Counter[str] = Counter()
        self.done: Counter[str] = Counter()
        self.faults: list[str] = []

    def get(self, path: str) -> str:
        return self._seen(path, self.browser.get(path))

    def post(self, path: str, data: dict[str, object] | None = None) -> str:
        came = {"Referer": str(self.browser.base_url)}
        return self._seen(path, self.browser.post(path, data=data or {}, headers=came))

    def _seen(self, path: str, answer: httpx.Response) -> str:
        if answer.status_code >= 500:
            said = re.search(r"A fault of the program[^<]*", answer.text)
            self.faults.append(f"{path}: {answer.status_code} {said[0] if said else answer.text[:300]}")
        return answer.text

    def clicks(self) -> str:
        return ",".join(f"{k}={self.dice.randint(0, 20)}" for k in ("lsc", "hsc", "lsr", "hsr"))

    def ids(self) -> list[str]:
        return [path.stem for path in (self.library / "sweeps").glob("*.h5")]

    def look(self) -> None:
        self.get(self.dice.choice(SCREENS))

    def turn(self) -> None:
        chosen = [f"{self.dice.choice(PACKS)}@{self.clicks()}" for _ in range(self.dice.randint(1, 6))]
        self.browser.get("/curves/data", params={"s": chosen})

    def what_if(self) -> None:
        asked = {"car": "kestrel", "front.spring": f"{self.dice.randint(20, 90)} N/mm", "rear.clicks": self.clicks()}
        self.browser.get("/car/data", params=asked)

    def drop(self) -> None:
        path = self.dice.choice(sorted((DEMO / "dyno").iterdir()))
        data = path.read_bytes() + b"\n" * self.dice.randint(0, 3)
        self.browser.put("/files/drop", content=data, headers={"Dynoan-Name": path.name})

    def keep(self) -> None:
        self.post("/files/keep")

    def take_off(self) -> None:
        lying = re.findall(r'name="id" value="([0-9a-f]{16})"', self.get("/files"))
        self.post("/files/off", {"id": lying[:3]})

    def correct(self) -> None:
        if ids := self.ids():
            what = self.dice.choice([{"do": "remove"}, {"do": "correct", "lsc": str(self.dice.randint(0, 20))}])
            self.post("/packs/correct", {"id": self.dice.sample(ids, min(2, len(ids))), **what})

    def undo(self) -> None:
        self.post("/undo")

    def put_on(self) -> None:
        asked = {"car": "kestrel", "front.clicks": self.clicks(), "rear.pack": self.dice.choice(PACKS)}
        page = self.post("/car/put-on", asked)
        mark = re.search(r'name="mark" value="([0-9a-f]+)"', page)
        text = re.search(r'<textarea name="text" hidden>\n?(.*?)</textarea>', page, re.DOTALL)
        if mark and text:
            self.post("/car/keep", {"car": "kestrel", "mark": mark[1], "text": html.unescape(text[1])})

    def record(self) -> None:
        self.post("/log/record", {"car": "kestrel", "surface": self.dice.choice(["loose", "sticky"]), "good": "good"})

    def all_loaded(self) -> None:
        """Ask once for what loads a library: a launch, the pages to carry; wait until they are made."""
        self.get("/car?car=kestrel")
        self.post("/car/launch", {"car": "kestrel"})
        for kind in ("phone", "report"):
            self.post("/log/make", {"kind": kind, "car": "kestrel"})
        while self.browser.get("/state").json()["works"]:
            time.sleep(1)

    def wrong(self) -> None:
        self.get(self.dice.choice(["/nowhere", "/curves?s=nothing@x=1", "/car?car=nobody", "/api/ratio?car=nobody"]))
        self.post("/packs/rename", {"pack": "nobody", "to": "<b>"})

    def press(self) -> None:
        """Open a screen in the browser and press something there; that a page moved on meanwhile is no fault."""
        try:
            self.page.goto(self.dice.choice(SCREENS), wait_until="load")
        except BrowserError as error:
            if not any(words in str(error) for words in OVERTAKEN):
                raise
            self.done["a press before was still under way"] += 1
            return
        found = self.page.locator(PRESSED).all()
        for one in self.dice.sample(found, min(2, len(found))):
            try:
                one.click(timeout=2000, no_wait_after=True)
            except BrowserError as error:
                self.done[f"not pressed: {str(error).splitlines()[0][:40]}"] += 1

    def step(self) -> None:
        does: list[tuple[int, Callable[[], None]]] = [
            (300, self.look), (300, self.turn), (120, self.what_if), (50, self.drop), (8, self.keep),
            (5, self.take_off), (8, self.correct), (16, self.undo), (30, self.put_on), (10, self.record),
            (30, self.wrong), (20, self.press),
        ]  # fmt: skip
        (one,) = self.dice.choices([d for _, d in does], [w for w, _ in does])
        self.done[one.__name__] += 1
        begun = time.monotonic()
        one()
        self.spent[one.__name__] += round(1000 * (time.monotonic() - begun))


@contextmanager
def _pages(base: str, address: str) -> Iterator[Page]:
    with sync_playwright() as playwright:
        found = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=ARGS)
        page = found.new_context(base_url=base, accept_downloads=False).new_page()
        page.goto(address)
        yield page
        found.close()


def _begin(base: str, cookies: httpx.Cookies) -> httpx.Client:
    """Come in by the browser's own key, lay the demo and keep a part of it."""
    browser = httpx.Client(
        base_url=base, headers={"Origin": base}, cookies=cookies, follow_redirects=True, timeout=1800
    )
    browser.post("/files/demo")
    page = browser.get("/files").text
    lying = re.findall(r'id="n-([0-9a-f]{16})">(.*?)</h3>', page)
    browser.post("/files/off", data={"id": [i for i, name in lying if not KEPT.search(name)]})
    browser.post("/files/keep")
    return browser


def _memory(process: psutil.Process) -> str:
    held = process.memory_info()
    return f"{(held.rss - getattr(held, 'shared', 0)) / 1e6:.0f}/{held.rss / 1e6:.0f}"


def main(actions: int, seconds: float, seed: int) -> int:
    """Use a window; return 1 where anything was wrong."""
    with tempfile.TemporaryDirectory(prefix="soak-") as folder:
        path, log = Path(folder) / "team", Path(folder) / "log"
        command = [sys.executable, "-m", "dynoan", "open", str(path), "--no-browser", "--port", "18700"]
        with (
            log.open("w") as errors,
            subprocess.Popen(command, stdout=subprocess.PIPE, stderr=errors, text=True) as one,
        ):
            assert one.stdout is not None
            address = one.stdout.readline().strip()
            base = address.partition("/enter")[0]
            process, memory, count = psutil.Process(one.pid), [], 0
            until = time.monotonic() + seconds
            with _pages(base, address) as page:
                kept = {str(c["name"]): str(c["value"]) for c in page.context.cookies()}
                user = Soak(_begin(base, httpx.Cookies(kept)), page, path, seed)
                user.all_loaded()
                try:
                    while count < actions and time.monotonic() < until:
                        user.step()
                        count += 1
                        if count % 500 == 0:
                            memory.append(_memory(process))
                            told = f"{count} actions, {memory[-1]} MB, {len(user.faults)} faults"
                            print(told, *user.faults[-1:], flush=True)
                except (httpx.HTTPError, BrowserError) as error:
                    user.faults.append(f"after {count} actions: {type(error).__name__}: {error}")
            one.terminate()
            one.wait(60)
        said = log.read_text()
        faults = [f"{f.file}: {f.fault}" for f in Library(path).check().faults]
    print(f"{count} actions: {dict(user.done)}")
    print(f"spent [ms]: {dict(user.spent)}")
    print(f"memory, its own and with libraries [MB]: {' '.join(memory)}")
    print(f"faults of the program: {user.faults[:5]}\nlog: {said[:20_000]}\nlibrary: {faults or 'whole'}")
    return int(bool(user.faults or said or faults))


if __name__ == "__main__":
    given = dict(enumerate(sys.argv[1:]))
    sys.exit(main(int(given.get(0, 20_000)), float(given.get(1, 7200)), int(given.get(2, 1))))
