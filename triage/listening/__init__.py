"""From somebody's own words to a place, a mark and its size."""
