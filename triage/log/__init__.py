"""Boats over time: what is kept of them, the same mark seen again, and what is due."""
