"""header."""
