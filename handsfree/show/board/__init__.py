"""Board: what is seen from across the room, in a browser."""
