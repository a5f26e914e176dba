"""The jobs that keep and show, for Python."""

from __future__ import annotations

from dynoan.interface.asking import Asking


class KeepingJobs(Asking):
    """Setups, the report, the phone page."""
