"""What tells which source a translation of the compiled step is of."""

from __future__ import annotations

import hashlib
from pathlib import Path

from dynoan.analysis.launch.assumptions import BEHIND, FRICTION_GIVES, FRICTION_TURN
from dynoan.analysis.launch.large.tyre import SLOWEST, SPINNING_SLIP
from dynoan.units import GRAVITY

#: the files that the step is compiled from
SOURCES = ("compiled.py", "compiled_car.py", "compiled_axle.py", "layout.py")
#: of the parameters of `compiled.run_rows`, in order: integer or float, and how many dimensions (0: a number)
PARAMETERS = (("f", 1), ("f", 3), ("f", 5), ("i", 2), ("f", 2), ("f", 2), ("f", 0), ("f", 2), ("f", 2), ("f", 2),
              ("f", 2), ("f", 0), ("f", 2), ("f", 3), ("f", 3), ("f", 2))  # fmt: skip


def seal() -> str:
    """Return what tells the source that a translation is of from any other, constants from elsewhere included."""
    texts = [Path(__file__).with_name(name).read_text(encoding="utf-8") for name in SOURCES]
    constants = repr((BEHIND, FRICTION_TURN, FRICTION_GIVES, SLOWEST, SPINNING_SLIP, GRAVITY, PARAMETERS))
    return hashlib.sha256("\n".join([*texts, constants]).encode()).hexdigest()
