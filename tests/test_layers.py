"""The arrows point one way, and nothing heavy is imported before it is needed."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
BASE = {"units", "errors", "cautions", "model"}
MAY_IMPORT = {
    "units": {"errors"},
    "model": {"units", "errors"},
    "analysis": {"model", "units", "errors"},
    "library": {"model", "units", "errors"},
    "reading": {"model", "units", "errors"},
    "batch": {"errors"},
    "show": {"analysis", *BASE},
    "workbench": {"library", "analysis", "reading", "batch", *BASE},
    "cli": {"workbench", "show", "library", "analysis", "reading", "batch", *BASE},
}


def modules(layer: str) -> list[Path]:
    folder = ROOT / "dynoan" / layer
    return sorted(folder.rglob("*.py")) if folder.is_dir() else [folder.with_suffix(".py")]


def imported(path: Path, root: str) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            names = [node.module] if node.module != root else [f"{root}.{alias.name}" for alias in node.names]
        found |= {name.split(".")[1] for name in names if name.startswith(f"{root}.")}
    return found - {"__version__"}


@pytest.mark.parametrize("layer", MAY_IMPORT)
def test_a_layer_imports_only_what_lies_below(layer):
    for path in modules(layer):
        above = imported(path, "dynoan") - MAY_IMPORT[layer] - {layer}
        assert not above, f"{path.relative_to(ROOT)} imports {above}"


def test_importers_know_nothing_of_fitting_or_cars():
    for path in sorted((ROOT / "importers").rglob("*.py")):
        above = imported(path, "dynoan") - {"model", "units", "errors"}
        assert not above, f"{path.relative_to(ROOT)} imports {above}"


HEAVY = {"numpy", "pandas", "scipy", "matplotlib", "h5py", "numba", "pyarrow", "importlib.metadata", "rich", "jinja2"}


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
