"""What the program answers to the shell."""

from __future__ import annotations

SETTLED_AND_FIT = 0
"""Everything is settled, and nothing speaks against sailing or towing; or what was asked for was done."""

SAYS_OTHERWISE = 1
"""Something is open, or says otherwise."""

BAD_INPUT = 2
"""A survey, the rules or the command line cannot be used."""

COULD_NOT_WORK = 3
"""A disk, a terminal, a permission or a mistake of ours stood in the way."""

STOPPED = 130
"""Somebody pressed Ctrl-C, or the answers came to an end; what a shell itself answers then."""
