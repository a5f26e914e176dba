"""The folders that the guide's pages begin in."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from dynoan.cli.main import run

FIXTURES = Path(__file__).parents[2] / "fixtures"


def _demo(folder: Path) -> None:
    assert run(["demo", str(folder)], folder=folder.parent, quiet=True) == 0


def _first(folder: Path) -> None:
    """Make an empty folder but for ten files from a dyno shop, in US units."""
    shutil.copytree(FIXTURES / "first", folder)


MAKERS: dict[str, Callable[[Path], None]] = {"demo": _demo, "first": _first}


class GuideGrounds:
    """Grounds made once, of which each page gets a copy."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    @contextmanager
    def copy(self, name: str) -> Iterator[Path]:
        """Give a folder to run a page in."""
        made = self.folder / name
        if not made.exists():
            MAKERS[name](made)
        own = self.folder / "own" / name
        shutil.rmtree(own, ignore_errors=True)
        shutil.copytree(made, own)
        yield own
