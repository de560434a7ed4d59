"""Debrief: a run gone through afterwards, on one page."""
