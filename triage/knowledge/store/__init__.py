"""Where knowledge comes from: a folder of rules, or what was kept of it from the last run."""
