"""A rig's file to sweeps. Knows files; knows nothing of fitting or cars.

In go a file's bytes, its name and what the user states (`dynoan.model.importing.ReadOptions`); out come
`dynoan.model.sweep.Sweep`s, or a refusal that says what to do. `TEXT` and `EXCEL` are the built-in importers; the core
finds them through the entry-point group ``dynoan.importers``.

A file travels: `decoding` (bytes to text) -> `grid` (how the cells stand) -> `header` (the lines above the rows) ->
`tables` (numbers) -> `stated` (facts) -> `parts` (rows of one sweep) -> `channels` (SI, signs) -> `sweeps`.
The sheets of a workbook come by way of `workbooks`.
`words` holds the vocabularies of all, `assumptions` every threshold.
"""

from importers.excel import ExcelImporter
from importers.text_file import TextImporter

TEXT = TextImporter()
EXCEL = ExcelImporter()

__all__ = ["EXCEL", "TEXT"]
