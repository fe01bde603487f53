"""One module for each screen; each has ROUTES."""
