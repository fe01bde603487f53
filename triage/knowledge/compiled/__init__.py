"""Conditions and dependencies in the form that engines use."""
