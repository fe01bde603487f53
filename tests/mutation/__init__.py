"""Whether the tests would notice a changed line of `triage/inference`: ``python -m tests.mutation``."""
