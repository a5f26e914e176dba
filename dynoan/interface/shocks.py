"""The jobs about shocks and packs, for Python."""

from __future__ import annotations

from dynoan.interface.asking import Asking


class ShockJobs(Asking):
    """Curves, comparing, matching, naming, predicting, planning, health."""
