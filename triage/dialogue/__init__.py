"""A conversation about a boat as a pure step: what was said so far and one event, to what comes of it."""
