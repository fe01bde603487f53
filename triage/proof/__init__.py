"""Proving what must hold of every survey: promises, laws, and that no rule is vacuous or redundant."""
