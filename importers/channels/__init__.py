"""channels."""
