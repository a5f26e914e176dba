"""Tables of a file to sweeps.

In go the `ParsedTable`s of a file with its name and digest. Out come its `Sweep`s, each read as a trace or as a peak
table, halves of one setting joined; or a refusal that names file, place and option. Called by `text_file` and
`workbooks`.
"""

from importers.sweeps.assemble import SourceFile, assemble_sweeps

__all__ = ["SourceFile", "assemble_sweeps"]
