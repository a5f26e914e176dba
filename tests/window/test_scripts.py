"""The window's own scripts, checked as TypeScript checks JavaScript: names, members, numbers of arguments."""

import subprocess
from importlib import resources
from pathlib import Path

import pytest

from tests.browser.conftest import missing

TSC = Path(__file__).parents[1] / "browser" / "node_modules" / ".bin" / "tsc"
OPTIONS = (
    "--noEmit", "--allowJs", "--checkJs", "--strict", "false", "--target", "es2022", "--module", "esnext",
    "--moduleResolution", "bundler", "--lib", "es2022,dom,dom.iterable",
)  # fmt: skip

pytestmark = pytest.mark.browser


def checked(*scripts):
    if not TSC.exists():
        missing("typescript (npm install --no-save --prefix tests/browser typescript)")
    return subprocess.run([TSC, *OPTIONS, *scripts], capture_output=True, text=True, check=False)


def test_the_scripts_have_no_fault_that_a_checker_finds():
    folder = Path(str(resources.files("dynoan.window"))) / "static"
    done = checked(*sorted(folder.glob("*.js")))
    assert done.stdout == ""
    assert done.returncode == 0


def test_the_checker_would_find_a_wrong_name(tmp_path):
    script = tmp_path / "wrong.js"
    script.write_text("document.getElementByid('x').focus(1, 2);\n")
    assert "getElementByid" in checked(script).stdout
