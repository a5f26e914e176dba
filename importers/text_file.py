"""The importer of text files, packed by gzip or not, and of files that hold the same columns by name."""

from __future__ import annotations

from dataclasses import replace

from dynoan.errors import ReadError
from dynoan.model.importing import HEAD, ReadOptions, Verdict
from dynoan.model.log import LogColumn
from dynoan.model.sweep import Sweep
from importers.decoding import detect_encoding, head_text, lines_of, without_padding
from importers.digest import DigestBeside
from importers.grid import detect_grid
from importers.records import read_record, record_kind
from importers.sweeps import SourceFile, assemble_sweeps
from importers.tables import logged, page_as_text, read_tables, tidied
from importers.unpacked import unpacked, unpacked_head


class TextImporter:
    """Reads traces and peak tables from delimited, blank-separated or fixed-width text and from files of records."""

    name = "text"

    def recognises(self, head: bytes, name: str) -> Verdict:
        """Judge whether the first 64 KiB hold rows of numbers."""
        head = unpacked_head(head)
        if (kind := record_kind(head)) is not None:
            return Verdict(True, kind.words)
        head = page_as_text(without_padding(head))
        try:
            encoding = detect_encoding(head, name)
        except ReadError as error:
            return Verdict(False, str(error).removeprefix(f"{name}: "))
        lines = lines_of(head_text(head, encoding, whole=len(head) < HEAD))
        grid = detect_grid(lines) or detect_grid(tuple(tidied(lines) or ()))
        return Verdict(False, "no rows of numbers") if grid is None else Verdict(True, grid.words)

    def read(self, data: bytes, name: str, options: ReadOptions) -> tuple[Sweep, ...]:
        """Return the sweeps in a text file.

        Raises
        ------
        ReadError
            If the file is no text, or cannot be understood, naming file, place and way out.
        """
        with DigestBeside(data) as digest:
            data = unpacked(data, name)
            kind = record_kind(data[:HEAD])
            tables = read_tables(data, name, options) if kind is None else read_record(kind, data, name, options)
            digest.parsed()
            importer = self.name if kind is None else kind.name
            sweeps = assemble_sweeps(tables, SourceFile(name, "", importer))
        return tuple(replace(one, source=replace(one.source, sha256=digest.hex())) for one in sweeps)

    def columns(self, data: bytes, name: str) -> tuple[LogColumn, ...]:
        """Return the columns of a log.

        Raises
        ------
        ReadError
            If the file is no text, or holds no table of numbers with named columns.
        """
        return logged.columns(unpacked(data, name), name)

    def column_names(self, data: bytes, name: str, options: ReadOptions) -> tuple[str, ...]:
        """Return the names of the columns of a file's first table, as they stand in it.

        Raises
        ------
        ReadError
            If the file is no text, or holds no table of numbers.
        """
        data = unpacked(data, name)
        kind = record_kind(data[:HEAD])
        tables = read_tables(data, name, options) if kind is None else read_record(kind, data, name, options)
        return tuple(c.text for c in tables[0].columns if c.text)
