"""What lies in an earlier demo's folder that the demo did not put there: somebody's own, which no new demo may take."""

from __future__ import annotations

import hashlib
from contextlib import suppress
from pathlib import Path

from dynoan import output
from dynoan.errors import DynoanError
from dynoan.library import Library, files, marker

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
    ours = {f"sweeps/{n}.h5" for n in _sweeps_from(folder, rigs)} | {mark, marker.NAME, f"setups/{_RECORDED}.toml"}
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
    """Tell whether a file is as the demo has it, or a picture or page, which any run of a command makes again."""
    with suppress(DynoanError):
        body = files.read_bounded(path, output.MAX_OUTPUT)
        return output.kind_of(body) is not None or (source.is_file() and source.read_bytes() == body)
    return False
