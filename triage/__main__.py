"""``python -m triage``."""

from triage.cli import main

main(prog_name="triage")
