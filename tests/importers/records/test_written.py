"""One run and one peak table as workbooks, MATLAB, JSON, TDMS and MF4, each written by its own library, read alike.

`old_workbook.xls` was written once by xlwt 1.3.0, which is kept up no longer: the numbers of `PEAKS`, all invented.
"""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pandas as pd
import pytest
from scipy.io import savemat

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes
from tests.importers.making import RATE, F, T, X

UNITS = {"time": "s", "displacement": "mm", "force": "N"}
RUN = {"time": T, "displacement": 1e3 * X, "force": F}
NAMED = {f"{name} [{UNITS[name]}]": values for name, values in RUN.items()}
PEAKS = np.array([[50, 101.5, 121.5], [100, 202.25, 242.25], [200, 303.75, 363.75], [300, 404.5, 484.5]])
PEAK_NAMES = ["Velocity [mm/s]", "Compression [N]", "Rebound [N]"]
OLD = (Path(__file__).parent / "old_workbook.xls").read_bytes()


def ods(**sheets: pd.DataFrame) -> bytes:
    out = io.BytesIO()
    with pd.ExcelWriter(out, engine="odf") as book:
        for title, frame in sheets.items():
            frame.to_excel(book, sheet_name=title, index=False)
    return out.getvalue()


def xlsx(**sheets: pd.DataFrame) -> bytes:
    out = io.BytesIO()
    with pd.ExcelWriter(out, engine="openpyxl") as book:
        for title, frame in sheets.items():
            frame.to_excel(book, sheet_name=title, index=False)
    return out.getvalue()


def mat(value, **how) -> bytes:
    out = io.BytesIO()
    savemat(out, value, **how)
    return out.getvalue()


def tdms(*, increment: bool = False, **properties) -> bytes:
    from nptdms import ChannelObject, GroupObject, TdmsWriter

    out = io.BytesIO()
    names = ["displacement", "force"] if increment else list(RUN)
    more = {"wf_increment": 1 / RATE} if increment else {}
    channels = [ChannelObject("Run", n, RUN[n], {"unit_string": UNITS[n], **more}) for n in names]
    with TdmsWriter(out) as file:
        file.write_segment([GroupObject("Run", properties), *channels])
    return out.getvalue()


def mf4(version: str = "4.10") -> bytes:
    from asammdf import MDF, Signal

    file = MDF(version=version)
    file.append([Signal(RUN[n], T, unit=UNITS[n], name=n) for n in ("displacement", "force")])
    with TemporaryDirectory() as folder:
        path = file.save(Path(folder) / "run.mdf")
        file.close()
        return Path(path).read_bytes()


def table(names, columns) -> pd.DataFrame:
    return pd.DataFrame(dict(zip(names, columns, strict=True)))


TRACES = {
    "run.csv": lambda: table(NAMED, NAMED.values()).to_csv(index=False).encode(),
    "run.ods": lambda: ods(Run=table(NAMED, NAMED.values()).head(200)),
    "run.xlsx": lambda: xlsx(Run=table(NAMED, NAMED.values()).head(200)),
    "run.mat": lambda: mat({f"{n}_{UNITS[n]}": values for n, values in RUN.items()}),
    "packed.mat": lambda: mat({"run": {f"{n}_{UNITS[n]}": v for n, v in RUN.items()}}, do_compression=True),
    "described.mat": lambda: mat({"d": {n: {"unit": UNITS[n], "data": v[:, None]} for n, v in RUN.items()}}),
    "columns.json": lambda: json.dumps({"units": UNITS, **{n: v.tolist() for n, v in RUN.items()}}).encode(),
    "described.json": lambda: json.dumps(
        {n: {"unit": UNITS[n], "values": v.tolist()} for n, v in RUN.items()}
    ).encode(),
    "listed.json": lambda: json.dumps(
        {"channels": [{"name": n, "unit": UNITS[n], "data": v.tolist()} for n, v in RUN.items()]}
    ).encode(),
    "rows.json": lambda: table(NAMED, NAMED.values()).to_json(orient="records").encode(),
    "split.json": lambda: table(NAMED, NAMED.values()).to_json(orient="split", index=False).encode(),
    "run.tdms": tdms,
    "stepped.tdms": lambda: tdms(increment=True),
    "run.mf4": mf4,
    "run3.mdf": lambda: mf4("3.30"),
}  # fmt: skip


@pytest.mark.parametrize("name", TRACES)
def test_a_run_is_read_alike_from_any_file(name):
    (sweep,) = read_bytes(TRACES[name](), name)
    n = sweep.samples
    assert n in (200, len(T))
    np.testing.assert_allclose(sweep.channels["force"], F[:n], rtol=1e-9, atol=1e-6)
    np.testing.assert_allclose(sweep.channels["displacement"], X[:n], rtol=1e-9, atol=1e-9)
    assert sweep.layout == "trace"
    assert sweep.rate == pytest.approx(RATE, rel=1e-6)
    assert (sweep.decisions["force"].unit, sweep.decisions["displacement"].unit) == ("N", "mm")
    assert sweep.source.name == name


TABLES = {
    "peaks.ods": lambda: ods(Peaks=table(PEAK_NAMES, PEAKS.T)),
    "peaks.xlsx": lambda: xlsx(Peaks=table(PEAK_NAMES, PEAKS.T)),
    "peaks.xls": lambda: OLD,
    "peaks.mat": lambda: mat(dict(zip(("velocity_mm_s", "compression_N", "rebound_N"), PEAKS.T, strict=True))),
    "peaks.json": lambda: table(PEAK_NAMES, PEAKS.T).to_json(orient="records").encode(),
}  # fmt: skip


@pytest.mark.parametrize("name", TABLES)
def test_a_peak_table_is_read_alike_from_any_file(name):
    (sweep,) = read_bytes(TABLES[name](), name)
    v, f = sweep.channels["velocity"], sweep.channels["force"]
    assert sweep.layout == "peaks"
    np.testing.assert_allclose(1e3 * v[v > 0], PEAKS[:, 0])
    np.testing.assert_allclose(f[v > 0], PEAKS[:, 1])
    np.testing.assert_allclose(-f[v < 0], PEAKS[:, 2])


def test_an_old_workbook_s_words_are_facts_and_its_notes_no_table():
    (sweep,) = read_bytes(OLD, "peaks.xls")
    assert (sweep.shock, sweep.pack) == ("FL-84", "gravel")
    assert sweep.source.part.startswith("FL-84")


def test_each_sheet_of_an_ods_is_read():
    frames = {f"C{k} R8": table(PEAK_NAMES, np.add(PEAKS, [0, k, k]).T) for k in (4, 8)}
    sweeps = read_bytes(ods(**frames), "peaks.ods")
    assert [s.source.part for s in sweeps] == ["C4 R8", "C8 R8"]


def test_what_a_file_says_beside_its_columns_is_stated():
    found = {"shock": "FL-85", "pack": "mixed", "clicks": {"lsc": 6, "lsr": 8}, "gas_pressure": "8 bar", **NAMED}
    values = {k: v.tolist() if isinstance(v, np.ndarray) else v for k, v in found.items()}
    (sweep,) = read_bytes(json.dumps(values).encode(), "run.json")
    assert (sweep.shock, sweep.pack, dict(sweep.clicks)) == ("FL-85", "mixed", {"lsc": 6, "lsr": 8})
    (sweep,) = read_bytes(tdms(shock="FL-86", pack="tarmac"), "run.tdms")
    assert (sweep.shock, sweep.pack) == ("FL-86", "tarmac")


def test_options_hold_for_columns_by_name():
    data = json.dumps({"a": T.tolist(), "b": (1e3 * X).tolist(), "c": (F / 1e3).tolist()}).encode()
    told = ReadOptions(columns={"time": "a", "displacement": "b", "force": "c"},
                       units={"time": "s", "displacement": "mm", "force": "kN"})  # fmt: skip
    (sweep,) = read_bytes(data, "run.json", told)
    np.testing.assert_allclose(sweep.channels["force"], F)


@pytest.mark.parametrize(
    ("make", "module", "extra"),
    [
        (lambda: ods(Run=table(NAMED, NAMED.values()).head(9)), "python_calamine", "ods"),
        (lambda: OLD, "python_calamine", "xls"),
        (lambda: xlsx(Run=table(NAMED, NAMED.values()).head(9)), "openpyxl", "excel"),
        (tdms, "nptdms", "tdms"),
        (mf4, "asammdf", "mdf"),
    ],
)
def test_a_file_whose_extra_is_missing_is_refused_with_its_name(make, module, extra, monkeypatch):
    name = {"ods": "a.ods", "xls": "a.xls", "excel": "a.xlsx", "tdms": "a.tdms", "mdf": "a.mf4"}[extra]
    data = make()
    monkeypatch.setitem(sys.modules, module, None)
    with pytest.raises(ReadError, match=rf"{name}.*pip install 'dynoan\[{extra}\]'"):
        read_bytes(data, name)


def test_each_extra_that_a_refusal_names_is_one():
    import tomllib

    project = tomllib.loads((Path(__file__).parents[3] / "pyproject.toml").read_text("utf-8"))["project"]
    assert {"ods", "xls", "sheets", "excel", "tdms", "mdf"} <= set(project["optional-dependencies"])


@pytest.mark.parametrize(
    ("make", "name", "share", "said"),
    [
        (lambda: mat(RUN), "a.mat", 0.5, "damaged (it ends too soon); save it again"),
        (lambda: mat(RUN, do_compression=True), "a.mat", 0.9, "damaged (it ends too soon); save it again"),
        (tdms, "a.tdms", 0.5, "the TDMS file ends before its channels do; copy it from the logger again"),
        (mf4, "a.mf4", 0.5, "damaged (it ends too soon); export it as CSV"),
        (
            lambda: xlsx(Run=table(PEAK_NAMES, PEAKS.T)),
            "a.xlsx",
            0.5,
            "damaged (a packed part of it is torn); open and",
        ),
    ],
)
def test_a_file_that_is_cut_off_says_so_in_words(make, name, share, said):
    data = make()
    with pytest.raises(ReadError) as refused:
        read_bytes(data[: int(share * len(data))], name)
    assert said in str(refused.value)
