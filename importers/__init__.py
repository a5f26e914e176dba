"""A rig's file to sweeps. Knows files; knows nothing of fitting or cars.

`TEXT` and `EXCEL` are the built-in importers, found by the core through the entry-point group ``dynoan.importers``.
"""

from importers.excel import ExcelImporter
from importers.text_file import TextImporter

TEXT = TextImporter()
EXCEL = ExcelImporter()

__all__ = ["EXCEL", "TEXT"]
