"""From a text somebody wrote to plain values in their shape, or to every mistake at once."""
