"""Hear: sound to utterances."""
