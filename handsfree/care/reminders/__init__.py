"""Reminders after the start: what is to be remembered, when, and until it is answered. Pure."""
