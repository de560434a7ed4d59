"""Practice: a trainee talks through a checklist, in any order; what was said is marked by its rules."""
