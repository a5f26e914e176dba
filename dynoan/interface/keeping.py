"""The jobs that keep and show, for Python."""

from __future__ import annotations

from dynoan.interface.asking import Asking


class KeepingJobs(Asking):
    """The report, the phone page."""
