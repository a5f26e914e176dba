"""sweeps."""
