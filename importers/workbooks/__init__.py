"""Workbooks, each sheet like a text file.

In go a workbook's bytes, its name and what the user states. Out come the `Sweep`s of all sheets that hold a run, with
what lists of settings say of them; or a refusal. The libraries are optional extras. Called by `excel`.
"""

from importers.workbooks.reading import workbook_sweeps

__all__ = ["workbook_sweeps"]
