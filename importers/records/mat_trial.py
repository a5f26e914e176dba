"""Tries to read a MATLAB file by scipy in a process of its own: damage can make its compiled part end a process.

Run by `mat_file` as a script: the file on standard input; exit code 0 read, 3 damaged, its fault on standard error.
"""

from __future__ import annotations

import io
import sys

try:
    import resource
except ImportError:  # a system without limits
    resource = None  # type: ignore[assignment]

READ, DAMAGED = 0, 3
MOST_MEMORY = 4 << 30  #: what its values and scipy's own copies of them may take [bytes]; our judgement


def _limit_memory() -> None:
    """Limit what this process may take, unless it is limited more already."""
    if resource is not None:
        _, hard = resource.getrlimit(resource.RLIMIT_AS)
        most = MOST_MEMORY if hard == resource.RLIM_INFINITY else min(hard, MOST_MEMORY)
        resource.setrlimit(resource.RLIMIT_AS, (most, most))


def main() -> int:
    """Read the file on standard input."""
    from scipy.io import loadmat

    _limit_memory()
    try:
        loadmat(io.BytesIO(sys.stdin.buffer.read()), simplify_cells=True)
    except Exception as error:  # scipy raises whatever the damaged part provokes
        sys.stderr.write(f"{type(error).__module__}.{type(error).__qualname__}")
        return DAMAGED
    return READ


if __name__ == "__main__":
    sys.exit(main())
