"""Calling commands inside the test's process, as people and as programs do."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from click.testing import CliRunner

from dynoan.cli.hints import spoken
from dynoan.cli.main import cli
from dynoan.errors import DynoanError


@dataclass(frozen=True)
class Done:
    """What a call left behind."""

    code: int
    out: str
    err: str

    @property
    def result(self) -> Any:
        """The `result` of the one JSON object on standard output."""
        return json.loads(self.out)["result"]

    @property
    def warnings(self) -> list[str]:
        """The `warnings` of the one JSON object on standard output."""
        return json.loads(self.out)["warnings"]


def dynoan(*words: object) -> Done:
    """Run a command; an error of the project becomes exit code 2 and its text, as in the real shell."""
    done = CliRunner().invoke(cli, [str(w) for w in words], standalone_mode=False, prog_name="dynoan")
    if isinstance(done.exception, DynoanError):
        return Done(2, done.stdout, spoken(done.exception))
    if done.exception is not None:
        raise done.exception
    return Done(done.return_value or 0, done.stdout, done.stderr)


def write_run(path: Path, *, seed: int = 0, facts: str = "") -> Path:
    """Write a made-up run of a rig as CSV; `facts` are lines in front of it."""
    at = np.arange(0, 2, 0.002)
    position, speed = 25 * np.cos(8 * at), -200 * np.sin(8 * at)
    force = 9.0 * speed + 130 + np.random.default_rng(seed).normal(0, 5, len(at))
    rows = "".join(
        f"{t:.3f},{x:.2f},{v:.1f},{f:.1f}\n" for t, x, v, f in zip(at, -position, -speed, -force, strict=True)
    )
    head = f"# invented, no real shock\n{facts}Time [s],Displacement [mm],Velocity [mm/s],Force [N]\n"
    path.write_text(head + rows, encoding="utf-8")
    return path
