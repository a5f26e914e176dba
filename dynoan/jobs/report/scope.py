"""What a report is about, from names that may be a car's, a pack's or a shock's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dynoan.errors import CallError, LookupFault

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class Scope:
    """Which names a report is about; empty everywhere is the whole library."""

    cars: tuple[str, ...] = ()
    packs: tuple[str, ...] = ()
    shocks: tuple[str, ...] = ()

    @property
    def everything(self) -> bool:
        """Whether it is the whole library."""
        return not (self.cars or self.packs or self.shocks)

    @property
    def words(self) -> str:
        """The scope in words."""
        kinds = (("car", self.cars), ("pack", self.packs), ("shock", self.shocks))
        return "; ".join(f"{kind} {', '.join(names)}" for kind, names in kinds if names) or "the whole library"


def scope_of(bench: Workbench, what: Sequence[str]) -> Scope:
    """Return what names mean: cars, packs or shocks; "car=NAME" where a name could be several.

    Raises
    ------
    LookupFault
        If the library knows no car, pack or shock of a name.
    CallError
        If a name could mean two of them.
    """
    shocks = {r.shock for r in bench.records if r.shock} | set(bench.library.shocks())
    known = {"car": bench.library.cars(), "pack": bench.library.packs(), "shock": tuple(sorted(shocks))}
    found: dict[str, list[str]] = {kind: [] for kind in known}
    for word in what:
        kind, name = _kind(word, known)
        found[kind].append(name)
    return Scope(tuple(found["car"]), tuple(found["pack"]), tuple(found["shock"]))


def _kind(word: str, known: dict[str, tuple[str, ...]]) -> tuple[str, str]:
    """Return whether a word is a car, a pack or a shock, and its name."""
    kind, equals, rest = word.partition("=")
    if any(word in names for names in known.values()):  # a name may hold an equals sign itself
        kind, equals = "", ""
    name = rest if equals else word
    kinds = [k for k in known if name in known[k] and not (equals and kind in known and k != kind)]
    if not kinds:
        have = "; ".join(f"{k} {', '.join(names) or 'none'}" for k, names in known.items())
        raise LookupFault(f"'{word}': the library knows no such car, pack or shock", hint=f"it has {have}")
    if len(kinds) > 1:
        raise CallError(f"'{word}' is a {' and a '.join(kinds)}", hint=f"write {kinds[0]}={word}")
    return kinds[0], name
