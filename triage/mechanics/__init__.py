"""The sums: pure functions of numbers in SI units. A computed margin may add concern and never removes it."""
