"""The same job for many items: in this process, on all cores, or on a Dask cluster, with the same results.

In go a function of a module and its arguments; out come its results, in their order. Called by the workbench and by
jobs over many files; a door that asks often keeps the worker processes (`workers.py`) over its calls.
"""

from dynoan.batch.sharing import iterate
from dynoan.batch.workers import Workers, are_kept, cores, kept_workers

__all__ = ["Workers", "are_kept", "cores", "iterate", "kept_workers"]
