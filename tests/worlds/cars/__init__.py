"""Cars whose file is a little wrong: what a person states with its ±, and the car that stands there."""
