"""Conducts: the kinds of session, as pure functions; the corridor runs them all."""
