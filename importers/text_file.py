"""The importer of text files."""

from __future__ import annotations

from hashlib import sha256

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions, Verdict
from dynoan.model.log import LogColumn
from dynoan.model.sweep import Sweep
from importers.decoding import encoding
from importers.grid import judging as grid

_LARGE = 1 << 23  #: from here on the digest is made beside the parsing [bytes]


class TextImporter:
    """Reads traces and peak tables from delimited, blank-separated or fixed-width text."""

    name = "text"

    def recognises(self, head: bytes, name: str) -> Verdict:
        """Judge whether the first 64 KiB hold rows of numbers."""
        try:
            found = encoding.detect(head, name)
        except ReadError as error:
            return Verdict(False, str(error).removeprefix(f"{name}: "))
        cells = grid.detect(tuple(encoding.head_text(head, found, whole=len(head) < encoding.HEAD).split("\n")))
        return Verdict(False, "no rows of numbers") if cells is None else Verdict(True, cells.words)

    def read(self, data: bytes, name: str, options: ReadOptions) -> tuple[Sweep, ...]:
        """Return the sweeps in a text file."""
        from concurrent.futures import ThreadPoolExecutor

        from importers.sweeps import assemble
        from importers.tables import reading as text

        if len(data) < _LARGE:
            tables = text.read_tables(data, name, options)
            return assemble.sweeps(tables, name, options, sha256(data).hexdigest(), self.name)
        # Hashing releases the interpreter, so the digest of a large file is ready when its numbers are.
        with ThreadPoolExecutor(1) as pool:
            digest = pool.submit(lambda: sha256(data).hexdigest())
            tables = text.read_tables(data, name, options)
            return assemble.sweeps(tables, name, options, digest.result(), self.name)

    def columns(self, data: bytes, name: str) -> tuple[LogColumn, ...]:
        """Return the columns of a log."""
        from importers.tables import logged

        return logged.columns(data, name)
