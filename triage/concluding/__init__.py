"""From a survey to its assessment: one conductor, and the parts it conducts."""
