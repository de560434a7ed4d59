"""Drill: an instructor marks what a trainee does. Pure."""
