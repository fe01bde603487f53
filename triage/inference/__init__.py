"""From a boat's findings to what they mean. `evaluate` is the meaning; the other engines must agree with it."""
