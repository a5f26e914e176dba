"""The jobs about dyno files, for Python."""

from __future__ import annotations

from dynoan.interface.asking import Asking


class FileJobs(Asking):
    """Reading, keeping, listing, correcting sweeps."""
