"""How money is written, everywhere the same: its sign before it or its letters behind, as exact as we know it."""

from __future__ import annotations

from triage.buying.amounts import Spread, ThreePoint

SIGNS = {"EUR": "€", "GBP": "£", "USD": "$"}


def figure(value: float) -> str:
    """An amount to about as many figures as anybody knows, without its currency."""
    size = abs(value)
    step = 5 if size < 200 else 10 if size < 1000 else 50 if size < 5000 else 100
    shown = f"{round(size / step) * step:,.0f}" if size >= 1 else "0"
    return f"−{shown}" if value < 0 and shown != "0" else shown


def money(value: float, currency: str) -> str:
    """An amount in its currency."""
    sign = SIGNS.get(currency)
    shown = figure(value)
    if sign is None:
        return f"{shown} {currency}"
    return f"−{sign}{shown[1:]}" if shown.startswith("−") else f"{sign}{shown}"


def exactly(value: float, currency: str) -> str:
    """An amount that somebody named, to the last figure."""
    shown = f"{value:,.2f}".removesuffix(".00")
    return f"{SIGNS[currency]}{shown}" if currency in SIGNS else f"{shown} {currency}"


def span(least: float, most: float, currency: str) -> str:
    """From the least to the most."""
    ends = money(least, currency), money(most, currency)
    if ends[0] == ends[1]:
        return ends[0]
    return f"{ends[0] if currency in SIGNS else figure(least)} to {ends[1]}"


def amount(of: ThreePoint, currency: str) -> str:
    """A line of the price, without the sign of what comes on top."""
    least, most = sorted((abs(of.least), abs(of.most)))
    return span(least, most, currency)


def likely(of: Spread) -> tuple[float, float]:
    """Where it lies in eight of ten cases; nobody pays less than nothing."""
    return max(0.0, of.quantile(0.1)), max(0.0, of.quantile(0.9))


def spread(of: Spread, currency: str) -> str:
    """Where it lies in eight of ten cases, and the middle."""
    least, most = likely(of)
    ends, middle = span(least, most, currency), money(max(0.0, of.quantile(0.5)), currency)
    return ends if money(least, currency) == money(most, currency) else f"{ends}, likely {middle}"
