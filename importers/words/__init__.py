"""words."""
