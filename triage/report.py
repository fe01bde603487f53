"""Views of an assessment."""
