"""``python -m dynoan``."""

from dynoan.cli.main import main

main()
