"""What lies in an earlier demo's folder that the demo did not put there: somebody's own, which no new demo may take."""

from __future__ import annotations

import hashlib
from contextlib import suppress
from pathlib import Path

from dynoan.errors import DynoanError
from dynoan.library import Library, files, marker

#: what its steps draw and write, and those it says to go on with
OUTPUTS = frozenset((
    "curve.png", "packs.png", "ratio.png", "choose.png", "trial.png", "report.html", "trackside.html", "health.png",
    "launch.png", "push.png",
))  # fmt: skip
MOST = 1 << 30  #: a larger file is none of the demo's [bytes]
_RECORDED = "2026-03-22-kestrel"  #: the setup that the demo records


def file_of_somebody(folder: Path, source: Path, mark: str) -> Path | None:
    """Return the first file in a demo's folder that the demo did not make or that was changed since, None without one.

    Parameters
    ----------
    folder
        An earlier demo.
    source
        The files that demos are made of.
    mark
        The name of the file that tells a demo.
    """
    rigs = {hashlib.sha256(path.read_bytes()).hexdigest() for path in (source / "dyno").iterdir()}
    ours = {*OUTPUTS, mark, marker.NAME, f"setups/{_RECORDED}.toml"}
    ours |= {f"sweeps/{n}.h5" for n in _sweeps_from(folder, rigs)}
    for path in sorted(folder.rglob("*")):
        place = path.relative_to(folder)
        if path.is_dir() and not path.is_symlink():
            continue
        spared = place.parts[0] == "cache" or place.name == files.LOCK or place.name.startswith(files.TEMPORARY)
        if not (spared or place.as_posix() in ours or _made(path, source / place)):
            return place
    return None


def _sweeps_from(folder: Path, rigs: set[str]) -> set[str]:
    with suppress(DynoanError):
        return {record.id for record in Library(folder).records() if record.sha256 in rigs}
    return set()


def _made(path: Path, source: Path) -> bool:
    """Tell whether a file is as the demo has it."""
    with suppress(DynoanError):
        return source.is_file() and source.read_bytes() == files.read_bounded(path, MOST)
    return False
