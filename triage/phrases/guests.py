"""What somebody is told who may not come in."""

from __future__ import annotations

OTHER_ADDRESS = (
    "Not at this address",
    "The program is not answered under this name. Open the link as it was told where the program was started.",
)
ONLY_GUESTS = (
    "By its link alone",
    "These boats are shown to whoever was given the link. Scan the code again, or ask for the link where the program "
    "was started; each start makes a new one.",
)
FOR_TRAINERS = (
    "For your trainer",
    "The code of your class opens cases to practise on. Boats, answers and lessons are shown where the program runs.",
)
