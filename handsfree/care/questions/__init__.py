"""Questions about numbers in a session: what is told, what is missing, what follows. They change nothing."""
