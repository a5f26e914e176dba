"""decoding."""
