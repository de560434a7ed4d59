"""Show: readers of what keep holds."""
