"""Files that hold columns by name and are no text: JSON, MATLAB, NumPy, HDF5, TDMS, MF4; web pages that hold a table.

In go a file's bytes, its name and what the user states. Out come the same `ParsedTable`s as of text, so that channels,
units and signs are found by the same evidence; or None where the file is of another kind. The libraries for .mat
(scipy), HDF5 (h5py), TDMS and MF4 are asked for where they are needed, the last two as optional extras. Called by
`text_file`.
"""

from importers.records.kinds import RecordKind, read_record, record_kind

__all__ = ["RecordKind", "read_record", "record_kind"]
