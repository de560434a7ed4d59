"""Phrases: the grammar judges."""
