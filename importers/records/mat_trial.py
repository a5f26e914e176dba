"""Tries to read a MATLAB file by scipy in a process of its own: damage can make its compiled part end a process.

Run by `mat_file` as a script: the file on standard input; exit code 0 read, 3 damaged, its fault on standard error.
"""

from __future__ import annotations

import io
import sys

READ, DAMAGED = 0, 3


def main() -> int:
    """Read the file on standard input."""
    from scipy.io import loadmat

    try:
        loadmat(io.BytesIO(sys.stdin.buffer.read()), simplify_cells=True)
    except Exception as error:  # scipy raises whatever the damaged part provokes
        sys.stderr.write(type(error).__name__)
        return DAMAGED
    return READ


if __name__ == "__main__":
    sys.exit(main())
