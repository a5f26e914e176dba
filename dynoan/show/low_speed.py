"""To which speed clicks act most, and pictures and pages draw larger than an even axis would."""

#: in the unit shown; common practice, no source
LOW_SPEED = {"metric": 100, "us": 4}
