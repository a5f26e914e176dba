"""A rig's file to sweeps. Knows files; knows nothing of fitting or cars."""
