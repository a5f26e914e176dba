"""The folder store: sweeps as HDF5, cars, shocks and setups as TOML."""
