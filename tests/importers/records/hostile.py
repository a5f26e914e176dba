"""Workbooks, MATLAB, JSON and TDMS files of a few bytes that claim to be gigabytes, or unpack to them.

`python -m tests.importers.records.hostile FOLDER` reads each file of a folder and prints name, growth of memory [MB],
time [s] and what was said of it.
"""

from __future__ import annotations

import io
import json
import struct
import sys
import zipfile
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path

_TYPES = (
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Override PartName="/xl/workbook.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>'
    '<Override PartName="/xl/worksheets/sheet1.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>'
)
_RELATION = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_RELATIONS = '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">{}</Relationships>'
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_OFFICE = "urn:oasis:names:tc:opendocument:xmlns:{0}:1.0"
_SPREADSHEET = "application/vnd.oasis.opendocument.spreadsheet"
_LARGE = 420_000_000  #: what bombs unpack to, or say that they do [bytes]
_REAL = 40_000_000  #: what bombs unpack to that say otherwise [bytes]


def zipped(parts: Mapping[str, str]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in parts.items():
            archive.writestr(name, text)
    return out.getvalue()


def xlsx(rows: str, dimension: str = "A1:B2") -> bytes:
    workbook = f'<Relationship Id="r1" Type="{_RELATION}/officeDocument" Target="xl/workbook.xml"/>'
    sheet = f'<Relationship Id="r1" Type="{_RELATION}/worksheet" Target="worksheets/sheet1.xml"/>'
    names = '<sheets><sheet name="A" sheetId="1" r:id="r1"/></sheets>'
    return zipped({
        "[Content_Types].xml": _TYPES,
        "_rels/.rels": _RELATIONS.format(workbook),
        "xl/workbook.xml": f'<workbook xmlns="{_MAIN}" xmlns:r="{_RELATION}">{names}</workbook>',
        "xl/_rels/workbook.xml.rels": _RELATIONS.format(sheet),
        "xl/worksheets/sheet1.xml":
            f'<worksheet xmlns="{_MAIN}"><dimension ref="{dimension}"/><sheetData>{rows}</sheetData></worksheet>',
    })  # fmt: skip


def ods(table: str) -> bytes:
    spaces = " ".join(f'xmlns:{s}="{_OFFICE.format(s)}"' for s in ("office", "table", "text"))
    body = f'<office:body><office:spreadsheet><table:table table:name="A">{table}</table:table></office:spreadsheet>'
    manifest = f'<m:manifest xmlns:m="{_OFFICE.format("manifest")}"><m:file-entry m:full-path="/" m:media-type='
    return zipped({
        "mimetype": _SPREADSHEET,
        "content.xml": f"<office:document-content {spaces}>{body}</office:body></office:document-content>",
        "META-INF/manifest.xml": f'{manifest}"{_SPREADSHEET}"/></m:manifest>',
    })  # fmt: skip


def repeated(rows: int, columns: int) -> bytes:
    cell = f'<table:table-cell office:value-type="float" office:value="1" table:number-columns-repeated="{columns}"/>'
    return ods(f'<table:table-row table:number-rows-repeated="{rows}">{cell}</table:table-row>')


def saying(archive: bytes, size: int) -> bytes:
    """An archive whose large part says that it is of a size."""
    data, at = bytearray(archive), 0
    while (at := data.find(b"PK\x01\x02", at)) >= 0:
        if struct.unpack_from("<I", data, at + 24)[0] >= _REAL:
            struct.pack_into("<I", data, at + 24, size)
            struct.pack_into("<I", data, struct.unpack_from("<I", data, at + 42)[0] + 22, size)
        at += 4
    return bytes(data)


def element(kind: int, content: bytes) -> bytes:
    return struct.pack("<II", kind, len(content)) + content + b"\0" * (-len(content) % 8)


def array(of: int, sizes: tuple[int, ...], content: bytes) -> bytes:
    """A MATLAB array named F of a class and a size that need not fit its content."""
    head = element(6, struct.pack("<II", of, 0)) + element(5, struct.pack(f"<{len(sizes)}i", *sizes)) + element(1, b"F")
    return element(14, head + content)


def mat(*arrays: bytes) -> bytes:
    return b"MATLAB 5.0 MAT-file".ljust(124) + struct.pack("<H", 0x0100) + b"IM" + b"".join(arrays)


def packed_zeros() -> bytes:
    """A MATLAB file of one compressed array of zeros."""
    stream, zeros = zlib.compressobj(1), bytes(10_000_000)
    head = array(6, (_LARGE // 8, 1), b"")[8:]
    out = stream.compress(struct.pack("<II", 14, len(head) + 8 + _LARGE) + head + struct.pack("<II", 9, _LARGE))
    out += b"".join(stream.compress(zeros) for _ in range(_LARGE // len(zeros))) + stream.flush()
    return mat(struct.pack("<II", 15, len(out)) + out)


def far_cells(count: int = 3000) -> bytes:
    rows = "".join(f'<row r="{i}"><c r="XFD{i}"><v>1</v></c></row>' for i in range(1, count))
    return xlsx(rows, "A1:XFD1048576")


def counting_more(values: int) -> bytes:
    """A TDMS file that says it holds more values than it does."""
    import numpy as np
    from nptdms import ChannelObject, TdmsWriter

    out = io.BytesIO()
    with TdmsWriter(out) as file:
        file.write_segment([ChannelObject("Run", "Force", np.arange(100.0), {"unit_string": "N"})])
    data = bytearray(out.getvalue())
    struct.pack_into("<Q", data, data.find(struct.pack("<Q", 100)), values)
    return bytes(data)


def circling() -> bytes:
    """An old workbook whose directory goes on in itself."""
    data = bytearray((Path(__file__).parent / "old_workbook.xls").read_bytes())
    size = 1 << struct.unpack_from("<H", data, 30)[0]
    table, directory = struct.unpack_from("<I", data, 76)[0], struct.unpack_from("<I", data, 48)[0]
    struct.pack_into("<I", data, (table + 1) * size + 4 * directory, directory)
    return bytes(data)


FILES: dict[str, Callable[[], bytes]] = {
    "far.xlsx": lambda: xlsx('<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>', "A1:XFD1048576"),
    "wide.xlsx": far_cells,
    "bomb.xlsx": lambda: saying(xlsx(" " * _REAL), _LARGE),
    "long.xlsx": lambda: xlsx("<row><c><v>1</v></c></row>" * 1_300_000),
    "rows.xlsx": lambda: xlsx("<row/>" * 6_000_000),
    "attributes.xlsx": lambda: xlsx("<row " + " ".join(f"a{i}='1'" for i in range(1_000_000)) + "/>"),
    "liar.xlsx": lambda: saying(xlsx(" " * _REAL), 1000),
    "repeated.ods": lambda: repeated(1_048_576, 16_384),
    "columns.ods": lambda: repeated(1, 2_000_000_000),
    "rows.ods": lambda: repeated(2_000_000_000, 1),
    "circle.xls": circling,
    "bomb.ods": lambda: saying(ods(" " * _REAL), _LARGE),
    "liar.ods": lambda: saying(ods(" " * _REAL), 1000),
    "numbers.mat": lambda: mat(array(6, (1 << 30, 1 << 30), element(9, bytes(16)))),
    "cells.mat": lambda: mat(array(1, (1 << 30, 1), b"")),
    "structures.mat": lambda: mat(array(2, (1 << 30, 1), struct.pack("<HHI", 5, 4, 8) + element(1, b"abcdefg\0"))),
    "cells_in_cells.mat": lambda: mat(array(1, (1, 1), array(1, (1 << 15, 1 << 15), b""))),
    "sparse.mat": lambda: mat(array(5, (1 << 30, 1 << 30), element(5, bytes(8)) * 2 + element(9, bytes(8)))),
    "long.mat": lambda: mat(struct.pack("<II", 14, (1 << 31) - 8) + bytes(64)),
    "zeros.mat": packed_zeros,
    "deep.json": lambda: b'{"a":' + b"[" * 200_000,
    "digits.json": lambda: b'{"time":[1e999,2,3],"force":[' + b"9" * 5000 + b",1,2]}",
    "large.json": lambda: b'{"time":[' + b"1," * 33_000_000 + b"1]}",
    "wide.json": lambda: json.dumps({f"c{i}": [1, 2, 3] for i in range(20_000)}).encode(),
    "names.json": lambda: json.dumps({f"c{i}": [1, 2] for i in range(400_000)}).encode(),
    "values.tdms": lambda: counting_more(1 << 40),
}


def main(folder: Path) -> None:
    """Read each file, largest memory so far before and after."""
    import resource
    import time

    from dynoan.errors import ReadError
    from dynoan.reading import read_bytes

    for path in sorted(folder.iterdir()):
        data, before = path.read_bytes(), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        start = time.process_time()
        try:
            read_bytes(data, path.name)
            said = "read"
        except ReadError as error:
            said = str(error)
        spent = time.process_time() - start
        grown = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024
        sys.stdout.write(json.dumps([path.name, grown, spent, said]) + "\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
