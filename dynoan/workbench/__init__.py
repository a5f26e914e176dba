"""Where the library meets the analysis: what every command starts from."""

from dynoan.workbench.bench import Workbench
from dynoan.workbench.resolving import Resolved, resolve_file

__all__ = ["Resolved", "Workbench", "resolve_file"]
