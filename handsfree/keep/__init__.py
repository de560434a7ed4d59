"""Keep: what was confirmed is on the disk."""
