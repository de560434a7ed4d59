"""Care: the pure core; decides, never touches the machine."""
