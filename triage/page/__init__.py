"""The app as files for any web space, where the same Python runs in the browser."""
