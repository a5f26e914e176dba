"""The library under faults: killed processes, full disks, races, damaged and hostile files."""
