"""A long random use of the window, on demand:  python -m tests.window.soak ACTIONS [SECONDS] [SEED]

It starts `dynoan open` on a new library, lays the demo's files there, and then presses whatever a user could press. It
tells every answer that is a fault of the program, what the program wrote to its log, its memory at the quarters, and
whether the library is whole after.
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
from collections.abc import Callable
from pathlib import Path

import httpx
import psutil

from dynoan.library import Library

DEMO = Path(__file__).parents[2] / "fixtures" / "demo"
PACKS = ("gravel", "mixed", "tarmac")
SCREENS = ("/files", "/packs", "/curves", "/car", "/log", "/help", "/packs/runs?pack=gravel", "/car/edit?car=kestrel")


class Soak:
    """One random user."""

    def __init__(self, browser: httpx.Client, library: Path, seed: int) -> None:
        self.browser, self.library, self.dice = browser, library, random.Random(seed)
        self.done: Counter[str] = Counter()
        self.faults: list[str] = []

    def get(self, path: str) -> str:
        return self._seen(path, self.browser.get(path))

    def post(self, path: str, data: dict[str, object] | None = None) -> str:
        came = {"Referer": str(self.browser.base_url)}
        return self._seen(path, self.browser.post(path, data=data or {}, headers=came))

    def _seen(self, path: str, answer: httpx.Response) -> str:
        if answer.status_code >= 500:
            self.faults.append(f"{path}: {answer.status_code} {answer.text[:300]}")
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

    def wrong(self) -> None:
        self.get(self.dice.choice(["/nowhere", "/curves?s=nothing@x=1", "/car?car=nobody", "/api/ratio?car=nobody"]))
        self.post("/packs/rename", {"pack": "nobody", "to": "<b>"})

    def step(self) -> None:
        does: list[tuple[int, Callable[[], None]]] = [
            (30, self.look), (30, self.turn), (12, self.what_if), (5, self.drop), (3, self.keep), (1, self.take_off),
            (4, self.correct), (6, self.undo), (3, self.put_on), (1, self.record), (3, self.wrong),
        ]  # fmt: skip
        (one,) = self.dice.choices([d for _, d in does], [w for w, _ in does])
        self.done[one.__name__] += 1
        one()


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
            browser = httpx.Client(base_url=base, headers={"Origin": base}, follow_redirects=True, timeout=1800)
            browser.get(address)
            browser.post("/files/demo")
            browser.post("/files/keep")
            user, process, memory = Soak(browser, path, seed), psutil.Process(one.pid), []
            until, count = time.monotonic() + seconds, 0
            try:
                while count < actions and time.monotonic() < until:
                    user.step()
                    count += 1
                    if count % 200 == 0:
                        memory.append(process.memory_info().rss / 1e6)
                        print(f"{count} actions, {memory[-1]:.0f} MB, {len(user.faults)} faults", flush=True)
            except httpx.HTTPError as error:
                user.faults.append(f"after {count} actions: {type(error).__name__}: {error}")
            one.terminate()
            one.wait(60)
        said = log.read_text()
        faults = [f"{f.file}: {f.fault}" for f in Library(path).check().faults]
    print(f"{count} actions: {dict(user.done)}")
    print(f"memory [MB]: {' '.join(f'{m:.0f}' for m in memory)}")
    print(f"faults of the program: {user.faults[:5]}\nlog: {said[:2000]!r}\nlibrary: {faults or 'whole'}")
    return int(bool(user.faults or said or faults))


if __name__ == "__main__":
    given = dict(enumerate(sys.argv[1:]))
    sys.exit(main(int(given.get(0, 20_000)), float(given.get(1, 7200)), int(given.get(2, 1))))
