"""What is tried of a car without touching its file: keys of it, with what the fields of the screen Car say."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from dynoan.errors import DynoanError
from dynoan.model.car import AXLES, CORNER_NAMES, CORNERS
from dynoan.model.links import MEMBERS
from dynoan.units import shown
from dynoan.window.rendering import bare_number

if TYPE_CHECKING:
    from dynoan.window.desk import Desk

#: what may be tried without touching the file: key, words, kind of quantity
TRIED = (("spring", "Spring", "stiffness"), ("mass", "Corner weight", "mass"))


def changes_of(desk: Desk, given: Any) -> dict[str, str]:
    """Return the keys of a car's file among what was said; a bare number is in the field's unit."""
    keys = {f"{place}.{key}" for place in (*AXLES, *CORNERS) for key in ("spring", "mass", "pack", "clicks")}
    keys |= {*(f"links.holes.{member}" for member in MEMBERS), "antisquat", "cg_height"}
    said = {k: str(v).strip() for k, v in given.items() if k in keys and str(v).strip()}
    return {k: _with_unit(desk, k.rpartition(".")[2], text) for k, text in said.items()}


def _with_unit(desk: Desk, key: str, text: str) -> str:
    kind = {key: kind for key, _, kind in TRIED}.get(key)
    return f"{text} {shown(kind, desk.units).unit}" if kind and bare_number(text) else text


def told(error: DynoanError, changes: Mapping[str, str]) -> str:
    """Return what is wrong with what was tried, by the words of its field."""
    text = str(error).rpartition(".toml: ")[2]
    words = {f"{p}.{key}": f"{said} {CORNER_NAMES.get(p, p)}" for p in (*AXLES, *CORNERS) for key, said, _ in TRIED}
    return next((text.replace(k, w, 1) for k, w in words.items() if k in changes and text.startswith(k)), text)
