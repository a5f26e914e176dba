"""Where the library meets the analysis: what every command starts from."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dynoan.workbench.bench import Workbench
    from dynoan.workbench.resolving import Resolved, resolve_file

__all__ = ["Resolved", "Workbench", "resolve_file"]


def __getattr__(name: str) -> object:
    # Reading one file needs no library: what is not asked for is not imported.
    from importlib import import_module

    if name == "Workbench":
        return import_module("dynoan.workbench.bench").Workbench
    if name in {"Resolved", "resolve_file"}:
        return getattr(import_module("dynoan.workbench.resolving"), name)
    raise AttributeError(f"module 'dynoan.workbench' has no attribute '{name}'")
