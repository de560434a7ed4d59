"""Kinds of patient: what is usual, and how numbers are rounded, differs by them."""

from __future__ import annotations

from enum import StrEnum


class Patient(StrEnum):
    """Who gets the infusion. INFANT: so small that numbers are rounded down."""

    ADULT = "adult"
    CHILD = "child"
    INFANT = "infant"
