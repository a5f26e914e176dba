"""The arrows point one way, no two files need each other, and nothing heavy is imported before it is needed."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.arrows import ROOT, arrows, circles, imports, sources, target, with_fronts

BASE = {"units", "errors", "cautions", "version", "model"}
BELOW_JOBS = {"workbench", "library", "analysis", "reading", "batch", *BASE}
MAY_IMPORT = {
    "errors": set(),
    "cautions": set(),
    "guide": {"errors"},
    "version": set(),
    "installed": set(),
    "machine_code": set(),
    "units": {"errors"},
    "model": {"units", "errors"},
    "analysis": {"machine_code", *BASE},
    "library": BASE,
    "reading": {"installed", *BASE},
    "batch": {"errors"},
    "output": {"library", "errors"},
    "workbench": {"library", "analysis", "reading", "batch", *BASE},
    "jobs": {"guide", *BELOW_JOBS},
    "show": {"jobs", "analysis", "output", "guide", *BASE},
    "interface": {"jobs", "show", *BELOW_JOBS},
    "window": {"jobs", "show", "output", *BELOW_JOBS},
    "cli": {"jobs", "show", "output", "window", *BELOW_JOBS},
}
#: what the package's own front may reach for, when it is asked
MAY_IMPORT[""] = {"analysis", "interface", "reading", "cli", *BASE}
KNOWN = sources()


def layer(module: str) -> str:
    """Return the part of dynoan a module lies in: "" for the package itself and its ``__main__``."""
    parts = module.split(".")
    return "" if len(parts) == 1 or parts[1] == "__main__" else parts[1]


def of(name: str) -> list[str]:
    return [m for m in KNOWN if m.startswith("dynoan") and layer(m) == name]


def test_every_part_has_its_place():
    assert {layer(m) for m in KNOWN if m.startswith("dynoan")} == set(MAY_IMPORT)


@pytest.mark.parametrize("name", MAY_IMPORT)
def test_a_layer_imports_only_what_lies_below(name):
    graph = arrows(types=True)
    for module in of(name):
        above = {
            end for end in graph[module] if end.startswith("dynoan.") and layer(end) not in MAY_IMPORT[name] | {name}
        }
        assert not above, f"{module} imports {above}"


def test_importers_know_nothing_of_fitting_or_cars():
    for module, ends in arrows(types=True).items():
        if module.startswith("importers"):
            below = {"model", "units", "errors", "machine_code"}
            above = {e for e in ends if e.startswith("dynoan.") and layer(e) not in below}
            assert not above, f"{module} imports {above}"


def test_the_core_imports_no_importer_by_name():
    graph = arrows(types=True)
    named = {
        m: ends
        for m in graph
        if m.startswith("dynoan") and (ends := {e for e in graph[m] if e.startswith("importers")})
    }
    assert not named


def test_no_two_files_need_each_other():
    assert circles(arrows(types=False)) == []


def test_no_two_files_need_each_other_even_for_types():
    assert circles(arrows(types=True)) == []


def test_no_front_of_a_package_needs_who_asks_for_a_part_of_it():
    assert circles(with_fronts(arrows(types=False))) == []


def test_a_circle_is_seen():
    assert circles({"a": {"b"}, "b": {"c"}, "c": {"a"}, "d": {"a"}}) == [["a", "b", "c"]]


def test_a_module_imported_by_its_name_is_seen(tmp_path):
    file = tmp_path / "odd.py"
    file.write_text('from importlib import import_module\ndef f(x):\n    import_module(f"dynoan.cli.{x}")\n')
    assert [target(i.name, KNOWN) for i in imports(file)][-1] == "dynoan.cli"


@pytest.mark.parametrize("name", sorted(MAY_IMPORT.keys() - {"cli"}))
def test_only_the_shell_knows_click(name):
    for module in of(name):
        assert not [i for i in imports(KNOWN[module]) if i.name.split(".")[0] == "click"], module


@pytest.mark.parametrize("name", ["model", "analysis", "library", "workbench", "jobs"])
def test_only_what_shows_knows_pictures_and_pages(name):
    for module in of(name):
        heavy = [i for i in imports(KNOWN[module]) if i.name.split(".")[0] in {"matplotlib", "jinja2"}]
        assert all(i.types_only for i in heavy), module


HEAVY = {
    "numpy", "pandas", "scipy", "matplotlib", "h5py", "numba", "pyarrow", "importlib.metadata", "jinja2", "starlette",
    "uvicorn",
}  # fmt: skip


def test_help_loads_nothing_heavy():
    code = (
        "import sys; sys.argv = ['dynoan', '--help']\n"
        "from dynoan.cli.main import main\n"
        "try: main()\nexcept SystemExit: pass\n"
        "print('\\n'.join(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    assert not HEAVY & set(done.stdout.split())
    assert "choose" in done.stdout
