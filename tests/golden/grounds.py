"""The folders that command lines run in, made once and shared; lines that change something get a copy of their own."""

from __future__ import annotations

import contextlib
import itertools
import re
import shlex
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.golden import second_library
from tests.golden.line import Line
from tests.golden.running import Ran, run
from tests.importers.broken import BROKEN
from tests.once import copied, laid

LAYOUTS = Path(__file__).parents[2] / "fixtures" / "layouts"
DEMO_SETUPS = (
    'setup record kestrel --surface sticky --date 2026-04-12 --result "5th of 9" --bad --temperature "21 °C"',
    'setup record kestrel-winter --surface loose --date 2026-05-02T10:30:00 --good --remarks "two clicks softer"',
)
SECOND_SETUPS = ("setup record kestrel-front --surface wet --date 2026-04-20 --good --temperature '54 °F'",)
CAR_FILES = {
    "no-targets.toml": (r"\n\[targets(.|\n)*(?=\[surfaces.sticky)", "\n"),
    "upside-down.toml": ("shock_ratio = 0.92", "shock_ratio = 9.2"),
    "bare-number.toml": ('spring = "45 N/mm"', "spring = 45"),
    "no-spring.toml": ('spring = "45 N/mm"\n', ""),
    "misspelt.toml": ("shock_ratio = 0.92", "shok_ratio = 0.92"),
    "no-centre.toml": ('cg_height = "510 mm"\n', ""),
}
FAULTS = {
    "cars/kestrel-stiff.toml": 'wheelbase = "2430 mm"\ndriven = "left"\n',
    "layouts/odd-rig.toml": 'header = "Clk"\n',
    "setups/2026-05-05-kestrel-bare.toml": "setup.car = 3\n",
}


class Grounds:
    """The grounds in one folder, each made when first asked for."""

    def __init__(self, folder: Path, base: Path | None = None) -> None:
        self.folder = folder
        self.base = base or folder  #: the worker's own folder, beside those of the others
        self.demo: Ran | None = None  #: what `dynoan demo` itself left
        self.said: dict[str, Ran] = {}  #: what lines said as text, by slug
        self._made: dict[str, Path] = {}
        self._number = itertools.count()

    def of(self, name: str) -> Path:
        """Return a ground's folder."""
        if name not in self._made:
            folder = self.folder / name
            self.folder.mkdir(parents=True, exist_ok=True)
            self._made[name] = MAKERS[name](self, folder)
        return self._made[name]

    @contextlib.contextmanager
    def place(self, line: Line) -> Iterator[Path]:
        """Give the folder a line runs in; a copy that goes away after it where the line changes something."""
        shared = self.of(line.ground)
        if not line.fresh:
            yield shared
            return
        own = self.folder / f"own{next(self._number)}" / shared.name
        laid(shared, own)
        try:
            yield own
        finally:
            shutil.rmtree(own.parent)


def must(text: str, folder: Path) -> None:
    """Run a line that makes a ground, which must succeed."""
    ran = run(shlex.split(text), folder)
    if ran.code != 0:
        raise RuntimeError(f"dynoan {text}: exit {ran.code}: {ran.err}")


def made_demo(folder: Path) -> Ran:
    """Run the demo into a folder.

    Raises
    ------
    RuntimeError
        If it fails.
    """
    ran = run(["demo", folder.name, "--json"], folder.parent)
    if ran.code != 0:
        raise RuntimeError(f"dynoan demo: {ran.err}")
    return ran


def _demo(grounds: Grounds, folder: Path) -> Path:
    grounds.demo = copied(grounds.base, "demo", made_demo, folder)
    for text in DEMO_SETUPS:
        must(text, folder)
    car = (folder / "cars" / "kestrel.toml").read_text(encoding="utf-8")
    for name, (old, new) in CAR_FILES.items():
        (folder / name).write_text(re.sub(old, new, car, count=1), encoding="utf-8")
    (folder / "held").mkdir()
    return folder


def _files(_grounds: Grounds, folder: Path) -> Path:
    folder.mkdir(parents=True)
    (folder / "held").mkdir()
    for path in sorted(LAYOUTS.iterdir()):
        if path.suffix != ".json":
            shutil.copy(path, folder)
    for kind, (data, _) in BROKEN.items():
        (folder / broken_name(kind)).write_bytes(data)
    return folder


def _second(grounds: Grounds, folder: Path) -> Path:
    copied(grounds.base, "second", _made_second, folder)
    return folder


def _made_second(folder: Path) -> None:
    rig = second_library.build(folder)
    must(f"add --workers 1 {' '.join(f'{rig.name}/{path.name}' for path in sorted(rig.iterdir()))}", folder)
    for text in SECOND_SETUPS:
        must(text, folder)
    (folder / "held").mkdir()


def _faulty(grounds: Grounds, folder: Path) -> Path:
    # Without the caches: what was fitted before the damage would still be known, or not, by the order of the lines.
    shutil.copytree(grounds.of("second"), folder, ignore=shutil.ignore_patterns("cache"))
    for name, text in FAULTS.items():
        (folder / name).write_text(text, encoding="utf-8")
    shock = folder / "shocks" / "FL-11.toml"
    shock.write_text(shock.read_text(encoding="utf-8").replace("clicks = 12", "clicks = 0", 1), encoding="utf-8")
    one, other = sorted((folder / "sweeps").glob("*.h5"))[:2]
    whole = bytearray(other.read_bytes())
    whole[len(whole) // 2] ^= 0xFF
    other.write_bytes(whole)
    one.write_bytes(one.read_bytes()[:3000])
    return folder


def _empty(_grounds: Grounds, folder: Path) -> Path:
    folder.mkdir(parents=True)
    return folder


def broken_name(kind: str) -> str:
    """Return the file name of a broken file."""
    return f"broken_{kind.replace(' ', '_').replace('.', '_')}.csv"


MAKERS: dict[str, Callable[[Grounds, Path], Path]] = {
    "demo": _demo,
    "files": _files,
    "second": _second,
    "faulty": _faulty,
    "empty": _empty,
}
