"""stated."""
