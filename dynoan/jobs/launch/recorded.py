"""The drive of a launch as a log recorded it."""

from __future__ import annotations

from dynoan.analysis.launch import drive as driving
from dynoan.analysis.launch.drive import Drive
from dynoan.errors import CallError
from dynoan.jobs.log_time import log_time
from dynoan.model.log import Log, like

_ACCELERATION = r"(^a$|acc|long|beschl)"


def recorded(log: Log) -> Drive:
    """Return the acceleration that a log holds, as a drive whatever the grip. [m/s²]

    Raises
    ------
    CallError
        If no column of it is named an acceleration.
    """
    found = like(log.columns, _ACCELERATION)
    if found is None:
        raise CallError(
            "no column is named an acceleration, such as 'acceleration [m/s2]'",
            where=log.path,
            hint=f"it has {log.names}",
        )
    return driving.traced(log_time(log).seconds, found.si("acceleration"), log.file)
