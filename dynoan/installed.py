"""Which entry points the installed packages name.

`importlib.metadata` tells, but to load it takes longer than to read a file. So first the folders on the path are looked
at: where one package alone names the group, as is usual, its few lines are all there is to know.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Mapping
from importlib import import_module
from importlib.machinery import PathFinder
from pathlib import Path
from typing import Any, NamedTuple, Protocol


class LoadablePoint(Protocol):
    """An entry point: a name, and what it leads to."""

    @property
    def name(self) -> str:
        """Its name within the group."""
        ...

    def load(self) -> Any:
        """Import and return what it leads to."""
        ...


class InstalledPoints(NamedTuple):
    """The entry points of a group."""

    own: Mapping[str, LoadablePoint] | None  #: of the package that asks, by name; None where it is not installed
    others: Mapping[str, LoadablePoint]  #: of other packages, by name


class PlainPoint(NamedTuple):
    """An entry point as a line tells it: "text = importers:TEXT"."""

    name: str
    module: str
    attribute: str

    def load(self) -> Any:
        """Import and return what it leads to.

        Raises
        ------
        ImportError, AttributeError
            If it leads nowhere.
        """
        return getattr(import_module(self.module), self.attribute)


class _Unclear(Exception):
    """Only `importlib.metadata` can tell."""


def installed_points(group: str, package: str) -> InstalledPoints:
    """Return the entry points of a group, those of one package apart."""
    try:
        return InstalledPoints({point.name: point for point in _of_one(group, package)}, {})
    except _Unclear:
        return _by_metadata(group, package)


def _of_one(group: str, package: str) -> list[PlainPoint]:
    """Return the entry points of a package where it alone names the group.

    Raises
    ------
    _Unclear
        If others name it too, the package is not there, or packages may be where this does not look.
    """
    if any(hasattr(finder, "find_distributions") for finder in sys.meta_path if finder is not PathFinder):
        raise _Unclear
    found = [(folder, text) for folder, text in _texts() if group in text]
    if len(found) != 1 or not found[0][0].lower().startswith(f"{package}-"):
        raise _Unclear
    return list(_points(found[0][1], group))


def _texts() -> Iterator[tuple[str, str]]:
    """Yield the entry points of each installed package as text, with the name of the folder that holds it."""
    for place in dict.fromkeys(sys.path):
        if not isinstance(place, str) or place.endswith(".egg"):
            raise _Unclear
        try:
            names = os.listdir(place or ".")
        except FileNotFoundError:
            continue
        except OSError as error:
            raise _Unclear from error  # an archive
        for name in names:
            if name.lower().endswith((".dist-info", ".egg-info")):
                try:
                    yield name, Path(place, name, "entry_points.txt").read_text("utf-8")
                except (FileNotFoundError, NotADirectoryError):
                    continue
                except (OSError, UnicodeDecodeError) as error:
                    raise _Unclear from error


def _points(text: str, group: str) -> Iterator[PlainPoint]:
    """Yield the entry points of a group.

    Raises
    ------
    _Unclear
        If a line is more than a name, a module and what it holds.
    """
    section = ""
    for line in filter(None, map(str.strip, text.splitlines())):
        if line.startswith("["):
            section = line
        elif section == f"[{group}]" and line[0] not in "#;":
            name, _, value = (part.strip() for part in line.partition("="))
            module, _, attribute = value.partition(":")
            if not (name and module.replace(".", "").isidentifier() and attribute.isidentifier()):
                raise _Unclear
            yield PlainPoint(name, module, attribute)


def _by_metadata(group: str, package: str) -> InstalledPoints:
    from importlib.metadata import PackageNotFoundError, distribution, entry_points

    try:
        own = {point.name: point for point in distribution(package).entry_points.select(group=group)}
    except PackageNotFoundError:
        return InstalledPoints(None, {point.name: point for point in entry_points(group=group)})
    return InstalledPoints(own, {p.name: p for p in entry_points(group=group) if p.name not in own})
