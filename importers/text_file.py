"""The importer of text files."""

from __future__ import annotations

from hashlib import sha256
from threading import Thread

from dynoan.errors import ReadError
from dynoan.model.importing import HEAD, ReadOptions, Verdict
from dynoan.model.log import LogColumn
from dynoan.model.sweep import Sweep
from importers.decoding import detect_encoding, head_text
from importers.grid import detect_grid
from importers.sweeps import SourceFile, assemble_sweeps
from importers.tables import logged, read_tables


class TextImporter:
    """Reads traces and peak tables from delimited, blank-separated or fixed-width text."""

    name = "text"

    def recognises(self, head: bytes, name: str) -> Verdict:
        """Judge whether the first 64 KiB hold rows of numbers."""
        try:
            encoding = detect_encoding(head, name)
        except ReadError as error:
            return Verdict(False, str(error).removeprefix(f"{name}: "))
        grid = detect_grid(tuple(head_text(head, encoding, whole=len(head) < HEAD).split("\n")))
        return Verdict(False, "no rows of numbers") if grid is None else Verdict(True, grid.words)

    def read(self, data: bytes, name: str, options: ReadOptions) -> tuple[Sweep, ...]:
        """Return the sweeps in a text file.

        Raises
        ------
        ReadError
            If the file is no text, or cannot be understood, naming file, place and way out.
        """
        digest = sha256()
        # Hashing releases the interpreter, so the digest of a large file is ready when its numbers are.
        worker = Thread(target=digest.update, args=(data,))
        worker.start()
        tables = read_tables(data, name, options)
        worker.join()
        return assemble_sweeps(tables, SourceFile(name, digest.hexdigest(), self.name))

    def columns(self, data: bytes, name: str) -> tuple[LogColumn, ...]:
        """Return the columns of a log.

        Raises
        ------
        ReadError
            If the file is no text, or holds no table of numbers with named columns.
        """
        return logged.columns(data, name)
