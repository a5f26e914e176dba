"""A small library of the Kestrel's invented dyno files, kept by the commands themselves, for the tests of the pages."""

import shutil
from functools import partial

from dynoan.jobs.demo import data_folder
from dynoan.library import Library
from tests.library.calling import dynoan
from tests.once import copied, lent_fits

#: two packs, and the four gravel shocks in one common setting
FILES = ("FL-01_gravel_lsc*", "F*_gravel_lsc10_hsc10_lsr10_hsr10.csv", "R*_gravel_lsc10_hsc10_lsr10_hsr10.csv",
         "FL-01_mixed_lsc1?_*", "FL-01_mixed_lsc2_*")  # fmt: skip


def small_library(folder):
    """Return the library in a folder, made when first asked for: fitting its packs takes a while."""
    path = folder / "kestrel"
    if not path.exists():
        copied(folder, "kestrel", partial(_made, folder), path)
    return path


def _made(base, path):
    Library.create(path, team="Kestrel (invented)")
    for part in ("cars", "shocks"):
        shutil.copytree(data_folder() / part, path / part, dirs_exist_ok=True)
    files = sorted({f for pattern in FILES for f in (data_folder() / "dyno").glob(pattern)})
    lent_fits(base, path)
    done = dynoan("add", *files, "--library", path)
    assert done.code == 0, done.err
    # Its maps too: a program of its own, which remembers nothing of this run, finds them there.
    done = dynoan("ratio", "kestrel", "--json", "--library", path)
    assert done.code == 0, done.err
