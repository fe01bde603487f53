"""Hostile input for everything that reads what people wrote.

`harnesses` says what must come of any bytes at all; `seeds` holds real files and sentences, mistakes, and what was
found. ``pytest`` runs each harness on all seeds and on seeds that were spoilt a little. ``python -m tests.fuzz NAME``
lets atheris look further, guided by which lines of the package each input reaches, for as long as one likes.
"""
