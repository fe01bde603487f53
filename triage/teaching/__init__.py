"""Teaching damage recognition: drawn cases, lessons, a learner’s run and its marking."""
