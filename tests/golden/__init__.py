"""Golden answers: what every command said of invented data, so that a rebuilt inside cannot change it unseen."""
