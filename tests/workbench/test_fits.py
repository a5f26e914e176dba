"""FittedSetting curves and maps: from caches, in one process, on cores and on a cluster, always the same."""

from __future__ import annotations

import shutil
from pathlib import Path

import numpy as np
import pytest

from dynoan.library import Library
from dynoan.reading import read_bytes
from dynoan.workbench import Workbench, fitting_jobs

DEMO = Path(__file__).parents[2] / "fixtures" / "demo"
V = np.array([-0.4, -0.1, -0.03, 0.03, 0.1, 0.4])


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    path = tmp_path_factory.mktemp("fits") / "team"
    library = Library.create(path)
    for file in sorted((DEMO / "dyno").glob("*tarmac*.csv"))[:3]:
        data = file.read_bytes()
        for sweep in read_bytes(data, file.name):
            library.add(sweep, data)
    shutil.copytree(DEMO / "shocks", path / "shocks", dirs_exist_ok=True)
    return path


def forces(folder, **how):
    shutil.rmtree(folder / "cache", ignore_errors=True)
    bench = Workbench(Library(folder), **how)
    curves = [t.curve(V) for t in bench.tested(pack="tarmac")]
    force, half = bench.click_map("tarmac").force({"lsc": 7, "hsc": 9, "lsr": 7, "hsr": 9}, V)
    return np.array([*curves, force, half])


@pytest.mark.slow
@pytest.mark.thorough
def test_one_process_cores_and_a_cluster_give_the_same(folder, monkeypatch):
    distributed = pytest.importorskip("distributed")
    alone = forces(folder)
    monkeypatch.setattr(fitting_jobs, "WORTH_PROCESSES", dict.fromkeys(fitting_jobs.WORTH_PROCESSES, 1))
    monkeypatch.setattr("dynoan.batch.sharing.cores", lambda: 2)
    np.testing.assert_allclose(forces(folder), alone, rtol=1e-9)
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, host="127.0.0.1"
    ) as local:
        np.testing.assert_allclose(forces(folder, cluster=local.scheduler_address), alone, rtol=1e-9)


def test_what_is_cached_is_not_fitted_again_until_the_sweep_is_edited(folder, monkeypatch):
    forces(folder)
    fitted = []
    monkeypatch.setattr(
        fitting_jobs, "fit_curve", lambda job: fitted.append(job.ids) or fitting_jobs.FittedSetting(b"", ())
    )
    Workbench(Library(folder)).tested(pack="tarmac")
    assert not fitted
    library = Library(folder)
    one = library.records()[0]
    library.edit(one.id, date="2026-03-13")
    with pytest.raises(ValueError, match="not a cache"):
        Workbench(library).tested(pack="tarmac")
    assert fitted == [(one.id,)]
    library.edit(one.id, date=one.date)


def test_what_a_record_tells_beside_its_curve_comes_with_it(folder, monkeypatch):
    """Conditioning takes most of a fit; whoever asks for a shock's health after its curves waits for it once."""
    forces(folder)
    library = Library(folder)
    one = library.records()[0]
    by_itself = fitting_jobs.told_by(fitting_jobs.CurveJob((one.id,), (library.sweep_bytes(one),)))
    monkeypatch.setattr(fitting_jobs, "told_by", lambda _job: pytest.fail("conditioned again"))
    assert fitting_jobs.encode(Workbench(library).told([one])[0]) == by_itself


def test_a_damaged_cache_is_made_again(folder):
    before = forces(folder)
    for file in (folder / "cache" / "curve").glob("*.bin"):
        file.write_bytes(file.read_bytes()[:-20])
    bench = Workbench(Library(folder))
    np.testing.assert_array_equal([t.curve(V) for t in bench.tested(pack="tarmac")], before[:-2])


def test_progress_is_told_while_fitting(folder):
    said = []
    forces(folder, progress=lambda *seen: said.append(seen))
    assert ("fitting curves", 3, 3) in said


def test_what_is_kept_in_memory_is_bounded(folder, monkeypatch):
    """A window that is open for days is asked for ever new clicks and, as runs are corrected, ever new maps."""
    monkeypatch.setattr(fitting_jobs, "KEPT", {"curve": 2, "map": 1, "setting": 5})
    bench = Workbench(Library(folder))
    bench.tested(pack="tarmac")
    bench.tested(pack="tarmac")
    fits, made = bench._fits, bench.curve(bench.records[0].id)
    for click in range(12):
        for _ in range(2):  # made, then read
            fits._made(
                "setting",
                [f"click {click}"],
                type(made),
                fitting_jobs.encode,
                lambda which: [made] * len(which),
                fitting_jobs._as_it_is,
            )
    assert {kind: len(of) for kind, of in fits._known.items()} == {"curve": 2, "setting": 5}
    newest = next(reversed(fits._known["setting"].values()))
    np.testing.assert_array_equal(newest(V), made(V))
