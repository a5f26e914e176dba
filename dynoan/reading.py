"""Files to sweeps: finds the importers and asks the one that recognises a file."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from importlib.metadata import entry_points
from pathlib import Path

from dynoan.errors import ReadError
from dynoan.model.importing import Importer, ReadOptions
from dynoan.model.sweep import Sweep

GROUP = "dynoan.importers"
HEAD = 65536
_BUILT_IN = ("excel", "text")


@lru_cache(maxsize=1)
def importers() -> tuple[Importer, ...]:
    """Return the importers: those of installed packages first, by name, then the built-in ones."""
    import importers as built_in

    known: dict[str, Importer] = {"excel": built_in.EXCEL, "text": built_in.TEXT}
    added = {point.name: point for point in entry_points(group=GROUP) if point.name not in known}
    found = []
    for name in sorted(added):
        try:
            found.append(added[name].load())
        except Exception as error:
            raise ReadError(f"importer '{name}' cannot be loaded ({error}); mend or uninstall its package") from error
    return (*found, *(known[name] for name in _BUILT_IN))


def read(path: Path | str, options: ReadOptions | None = None) -> tuple[Sweep, ...]:
    """Return the sweeps in a rig's file.

    Parameters
    ----------
    path
        The file.
    options
        What the user states; it wins over what the file says.

    Raises
    ------
    ReadError
        If no importer understands the file; the text names file, place and way out.
    OSError
        If the file cannot be opened.
    """
    path = Path(path)
    if path.is_dir():
        raise ReadError(f"{path}: this is a folder; name the files in it")
    return read_bytes(path.read_bytes(), path.name, options)


def read_bytes(
    data: bytes, name: str, options: ReadOptions | None = None, *, among: Iterable[Importer] | None = None
) -> tuple[Sweep, ...]:
    """Return the sweeps in a file's bytes.

    Raises
    ------
    ReadError
        If no importer understands them.
    """
    head = data[:HEAD]
    given = tuple(importers() if among is None else among)
    for importer in given:
        if importer.recognises(head, name).yes:
            return importer.read(data, name, options or ReadOptions())
    # The text importer's own error says more of a text file than that nobody recognised it.
    return given[-1].read(data, name, options or ReadOptions())
