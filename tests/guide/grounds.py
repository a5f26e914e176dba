"""The folders that the guide's pages begin in."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.golden.grounds import made_demo
from tests.once import copied, laid

FIXTURES = Path(__file__).parents[2] / "fixtures"


def _demo(base: Path, folder: Path) -> None:
    copied(base, "demo", made_demo, folder)


def _first(_base: Path, folder: Path) -> None:
    """Make an empty folder but for ten files from a dyno shop, in US units."""
    shutil.copytree(FIXTURES / "first", folder)


def _empty(_base: Path, folder: Path) -> None:
    """Make an empty folder."""
    folder.mkdir()


MAKERS: dict[str, Callable[[Path, Path], None]] = {"demo": _demo, "first": _first, "empty": _empty}


class GuideGrounds:
    """Grounds made once, of which each page gets a copy."""

    def __init__(self, folder: Path, base: Path | None = None) -> None:
        self.folder = folder
        self.base = base or folder  #: the worker's own folder, beside those of the others

    @contextmanager
    def copy(self, name: str) -> Iterator[Path]:
        """Give a folder to run a page in."""
        made = self.folder / name
        if not made.exists():
            made.parent.mkdir(exist_ok=True, parents=True)
            MAKERS[name](self.base, made)
        own = self.folder / "own" / name
        shutil.rmtree(own, ignore_errors=True)
        laid(made, own)
        yield own
