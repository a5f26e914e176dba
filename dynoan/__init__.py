"""Shock dyno sweeps to damping curves, damping ratios and the clicks to set.

``dynoan.read(path)`` gives sweeps, ``dynoan.fit(sweep)`` a curve, ``dynoan.open(path)`` a library whose methods are the
jobs of the command line. Each loads what it needs when first called.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.version import __version__

__all__ = ["__version__", "fit", "open", "read"]

if TYPE_CHECKING:
    from dynoan.interface import open_library as open
    from dynoan.interface.curves import fit, read


def __getattr__(name: str) -> object:
    if name == "read":
        from dynoan.interface.curves import read

        return read
    if name == "fit":
        from dynoan.interface.curves import fit

        return fit
    if name == "open":
        from dynoan.interface import open_library

        return open_library
    raise AttributeError(f"module 'dynoan' has no attribute '{name}'")
