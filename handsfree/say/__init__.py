"""Say: events to sentences to voices."""
