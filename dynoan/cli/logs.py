"""Columns of a logged CSV, where the commands look for them."""

from dynoan.jobs.logs import LogColumn, like, named, read_log, time_of

__all__ = ["LogColumn", "like", "named", "read_log", "time_of"]
