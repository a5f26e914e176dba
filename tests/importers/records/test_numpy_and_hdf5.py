"""NumPy's and HDF5's files: arrays by name, structures of columns, facts beside them; nothing of theirs is run."""

from __future__ import annotations

import io
import pickle
import zipfile

import h5py
import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from tests.importers.making import RATE, F, T, X

ARRAYS = {"time_s": T, "disp_mm": 1e3 * X, "force_N": F}
ROWS = np.array(list(zip(*ARRAYS.values(), strict=True)), [(name, float) for name in ARRAYS])
SAID = {"shock": "RL-02", "clicks": "LSC 6 LSR 8", "date": "2025-06-14"}


def npz(save=np.savez, **arrays) -> bytes:
    out = io.BytesIO()
    save(out, **arrays)
    return out.getvalue()


def npy(array) -> bytes:
    out = io.BytesIO()
    np.save(out, array)
    return out.getvalue()


def h5(fill, **options) -> bytes:
    out = io.BytesIO()
    with h5py.File(out, "w", **options) as file:
        fill(file)
    return out.getvalue()


def in_datasets(file):
    for name, unit in (("time", "s"), ("disp", "mm"), ("force", "N")):
        file[name] = ARRAYS[f"{name}_{unit}"]
        file[name].attrs["units"] = unit
    file.attrs.update(SAID)


def in_a_group(file):
    group = file.create_group("runs/RL-02")
    for name, values in ARRAYS.items():
        group[name] = values
    group.attrs.update({k: v for k, v in SAID.items() if k != "shock"})


def in_a_structure(file):
    file["data"] = ROWS
    file["data"].attrs.update(SAID)


def beside_names(file):
    file["data"] = np.column_stack([*ARRAYS.values()])
    file["names"] = list(ARRAYS)
    file["note"] = ["Shock: RL-02", "tested on 14 June 2025", "LSC 6 LSR 8"]


def as_matlab(file):
    """Matrices one across and texts as numbers, as MATLAB's version 7.3 has them."""
    for name, values in {**ARRAYS, "lsc": np.array(6.0), "lsr": np.array(8.0)}.items():
        file[name] = np.atleast_2d(values)
        file[name].attrs["MATLAB_class"] = np.bytes_("double")
    for name in ("shock", "date"):
        file[name] = np.array([[ord(c)] for c in SAID[name]], "u2")
        file[name].attrs["MATLAB_class"] = np.bytes_("char")


def matlab() -> bytes:
    data = h5(as_matlab, userblock_size=512)
    return b"MATLAB 7.3 MAT-file, Platform: GLNXA64".ljust(512) + data[512:]


@pytest.mark.parametrize(
    "data",
    [
        npz(**ARRAYS, **SAID),
        npz(np.savez_compressed, **ARRAYS, lsc=6, lsr=8, shock=np.array("RL-02"), date=np.array(["2025-06-14"])),
        npz(data=ROWS, info="shock RL-02, LSC 6, LSR 8, tested 2025-06-14"),
        npz(data=np.column_stack([*ARRAYS.values()]), names=list(ARRAYS), **SAID),
        h5(in_datasets),
        h5(in_a_group),
        h5(in_a_structure),
        h5(beside_names),
        matlab(),
    ],
    ids=["arrays", "packed", "structure", "matrix", "datasets", "group", "compound", "names", "MATLAB 7.3"],
)
def test_they_are_read_alike(data):
    (sweep,) = read_bytes(data, "run.bin")
    assert (sweep.shock, sweep.clicks, sweep.date) == ("RL-02", {"lsc": 6, "lsr": 8}, "2025-06-14")
    assert (sweep.rate, sweep.samples) == (pytest.approx(RATE), len(T))
    np.testing.assert_allclose(sweep.channels["force"], F, rtol=1e-9)
    np.testing.assert_allclose(np.ptp(sweep.channels["displacement"]), np.ptp(X), rtol=1e-9)


def test_a_structure_alone():
    (sweep,) = read_bytes(npy(ROWS), "run.npy")
    np.testing.assert_allclose(sweep.channels["force"], F, rtol=1e-9)


def test_groups_are_runs():
    def fill(file):
        for k in (1, 2):
            group = file.create_group(f"run{k}")
            for name, values in ARRAYS.items():
                group[name] = values * (k if name == "force_N" else 1)
            group.attrs["setting"] = f"C{2 * k} R{3 * k}"

    assert [s.clicks for s in read_bytes(h5(fill), "runs.h5")] == [{"c": 2, "r": 3}, {"c": 4, "r": 6}]


class Harm:
    """Fails the test where it is unpacked."""

    def __reduce__(self):
        return pytest.fail, ("unpacked",)


def test_what_is_pickled_is_never_unpacked_and_is_said():
    data = npz(**ARRAYS)
    with zipfile.ZipFile(io.BytesIO(data)) as archive, zipfile.ZipFile(out := io.BytesIO(), "w") as more:
        for name in archive.namelist():
            more.writestr(name, archive.read(name))
        header = io.BytesIO()
        np.lib.format.write_array_header_1_0(header, {"shape": (), "fortran_order": False, "descr": "|O"})
        more.writestr("info.npy", header.getvalue() + pickle.dumps(Harm()))
    (sweep,) = read_bytes(out.getvalue(), "run.npz")
    assert sweep.warnings[0].startswith("'info' holds Python objects, which may be harmful: not read")


def test_references_are_said():
    def fill(file):
        in_datasets(file)
        file["link"] = file["force"].ref

    (sweep,) = read_bytes(h5(fill), "run.h5")
    assert sweep.warnings[0] == "'/link' holds references to other parts of the file: not read"


def claiming() -> bytes:
    header = io.BytesIO()
    np.lib.format.write_array_header_1_0(header, {"shape": (1 << 40,), "fortran_order": False, "descr": "<f8"})
    return header.getvalue() + bytes(800)


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (npy(np.ones(9)), "a NumPy file without columns of one length by name"),
        (claiming(), "the NumPy file claims more values than are read"),
        (npy(ROWS)[:-100], "the NumPy file is damaged|claims more values"),
        (npz(**ARRAYS)[:-100], "the NumPy file is damaged"),
        (h5(in_datasets)[:-1000], "the HDF5 file is damaged"),
        (h5(lambda file: None), "an HDF5 file without columns of one length by name"),
        (
            h5(lambda file: file.create_dataset("x", (1 << 40,), "f8", chunks=(1024,))),
            "the HDF5 file claims more values",
        ),
        (
            h5(lambda file: file.__setitem__("x", h5py.ExternalLink("/etc/passwd", "/x"))),
            "without columns of one length",
        ),
    ],
)
def test_what_cannot_be_read_is_refused_in_one_line(data, said):
    with pytest.raises(ReadError, match=said) as refused:
        read_bytes(data, "run.bin")
    assert "\n" not in str(refused.value)


def test_a_workbook_in_xml_says_how_to_save_it():
    data = (
        b'<?xml version="1.0"?>\n<Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet"><Worksheet/></Workbook>'
    )
    with pytest.raises(
        ReadError, match=r"a workbook in the XML of Excel 2003, not text; open it and save it as \.xlsx"
    ):
        read_bytes(data, "run.xls")
