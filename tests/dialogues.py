"""Dialogues on the shipped checklist, in few words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from typing import Any

from handsfree.care.checklist import Checklist
from handsfree.care.vocabulary import vocabulary
from handsfree.lexicon import Lexicon
from handsfree.phrases.spelling import knows_all
from handsfree.shelf import checklist_from
from handsfree.testing.dialogue import Talk, talk
from handsfree.wiring import read_shipped, sounds


@cache
def shipped() -> Checklist:
    return checklist_from("peripheral_iv")


@cache
def lexicon() -> Lexicon:
    return Lexicon(vocabulary(shipped()), read_shipped, knows_all, sounds())


def told(*script: str | Iterable[str], after: Iterable[str] = (), **others: Any) -> Talk:
    """Run lines, or tuples of lines, on the shipped checklist; the lines of `after` come first, untold."""
    before = tuple(after)
    lines = [line for part in script for line in ([part] if isinstance(part, str) else part)]
    whole = talk([*before, *lines], shipped(), lexicon(), **others)
    shown = [n for n, line in enumerate(whole.lines) if line.startswith((">", "+"))]
    begin = shown[len(before)] if lines else len(whole.lines)
    return replace(whole, lines=whole.lines[begin:])


ORDER = (
    "two identifiers",
    "normal saline",
    "correct",
    "one litre",
    "correct",
    "over eight hours",
    "correct",
    "no allergies",
    "no arm to avoid",
    "consented",
)
EQUIPMENT = (
    "gloved",
    "green eighteen",
    "spare ready",
    "twenty set",
    "correct",
    "kit ready",
    "chlorhexidine",
    "expires march 2034",
    "sharps open",
)
FLUID = ("sodium chloride 0.9 percent", "expires june 2033", "it's clear", "not leaking", "no additives")
PRIME = (
    "intact and in date",
    "clamp shut",
    "spiked",
    "half full",
    "primed",
    "no air",
    "clamp shut",
    "lock primed",
)
SITE = (
    "left forearm",
    "tourniquet on",
    "i feel the vein",
    "tourniquet off",
    "fresh gloves",
    "scrubbing",
    "+30",
    "scrub done",
    "+30",
    "it's dry",
    "tourniquet on",
)
CANNULATE = (
    "sharp scratch",
    "flash",
    "advanced",
    "tourniquet off",
    "pressing",
    "needle away",
    "connected",
)
SECURE = ("draws back", "flushes easy", "no swelling", "dressed", "one attempt", "labelled")
RUN = ("no air", "clamp open", "42 in sixty")
WATCH = ("site's fine", "patient is told")

TO_EQUIPMENT = ORDER
TO_FLUID = (*TO_EQUIPMENT, *EQUIPMENT)
TO_PRIME = (*TO_FLUID, *FLUID)
TO_SITE = (*TO_PRIME, *PRIME)
TO_NEEDLE = (*TO_SITE, *SITE)
TO_SECURE = (*TO_NEEDLE, *CANNULATE)
TO_RUN = (*TO_SECURE, *SECURE)
WHOLE = (*TO_RUN, *RUN, *WATCH)
