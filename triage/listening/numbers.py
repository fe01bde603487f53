"""Numbers and units as people say them beside a boat."""

from __future__ import annotations

_ONES = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
         "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen")  # fmt: skip
_TENS = ("ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
WORDS = {word: float(n) for n, word in enumerate(_ONES, start=1)} | {w: 10.0 * n for n, w in enumerate(_TENS, start=1)}
WORDS |= {
    "a couple of": 2.0,
    "couple of": 2.0,
    "couple": 2.0,
    "a dozen": 12.0,
    "a hundred": 100.0,
    "a": 1.0,
    "an": 1.0,
}
WORDS |= {
    "three quarters of an": 0.75,
    "three quarters of a": 0.75,
    "three quarter": 0.75,
    "three eighths of an": 0.375,
}
WORDS |= {"half an": 0.5, "half a": 0.5, "half": 0.5, "a quarter of an": 0.25, "a quarter of a": 0.25, "quarter": 0.25}
WORDS |= {
    "a quarter": 0.25,
    "an eighth of an": 0.125,
    "an eighth": 0.125,
    "eighth": 0.125,
    "a sixteenth of an": 0.0625,
}
_SPELT = {
    ("mm", 1.0): ("mm", "mil", "mill", "millimetre", "millimeter"),
    ("mm", 10.0): ("cm", "centimetre", "centimeter"),
    ("mm", 1000.0): ("m", "metre", "meter"),
    ("mm", 25.4): ("inch", "inches", "in", '"', "″"),
    ("mm", 304.8): ("foot", "feet", "ft"),
    ("L", 1.0): ("l", "ltr", "litre", "liter"),
    ("L", 0.001): ("ml",),
    ("deg", 1.0): ("degree", "deg", "°"),
    ("kg", 1.0): ("kg", "kilo"),
    ("%", 1.0): ("%", "percent"),
}
UNITS = {name: unit for unit, names in _SPELT.items() for name in names}


def value_of(said: str) -> float:
    """The number that such a word or figure is."""
    text = " ".join(said.casefold().replace("-", " ").split())
    total = 0.0
    if text.endswith((" and a half", " and a quarter")):
        total, text = (0.5 if text.endswith("half") else 0.25), text.rsplit(" and a ", 1)[0]
    if text in WORDS:
        return total + WORDS[text]
    for sign, part in (("½", " 1/2"), ("¼", " 1/4"), ("¾", " 3/4")):
        text = text.replace(sign, part)
    for one in text.split():
        above, _, below = one.partition("/")
        total += float(above) / (float(below) or 1.0) if below else float(above)
    return total
