"""The table of rules drawn as a state chart, for people who read DEVELOPERS.md."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from handsfree.care.rules import OPEN, Mode

_CAUSES: Mapping[tuple[Mode, Mode], str] = MappingProxyType(
    {
        (Mode.WALKING, Mode.CONFIRMING): "a value to confirm",
        (Mode.CONFIRMING, Mode.WALKING): "correct, wrong, lapsed",
        (Mode.WALKING, Mode.STOPPED): "answers that do not go together",
        (Mode.WALKING, Mode.CHOOSING): "one of two was said",
        (Mode.CHOOSING, Mode.WALKING): "which, neither, lapsed",
        (Mode.WALKING, Mode.ASKING): "a question that lacks something",
        (Mode.ASKING, Mode.WALKING): "what it lacked, wrong, lapsed",
        (Mode.STOPPED, Mode.WALKING): "the right answer, or a new order",
        (Mode.WALKING, Mode.REASONING): "skip",
        (Mode.STOPPED, Mode.REASONING): "override",
        (Mode.REASONING, Mode.WALKING): "the reason, or wrong",
        (Mode.WALKING, Mode.HELD): "stop",
        (Mode.HELD, Mode.WALKING): "carry on",
        (Mode.WALKING, Mode.ASLEEP): "pause",
        (Mode.ASLEEP, Mode.WALKING): "listen",
        (Mode.WALKING, Mode.ENDING): "end",
        (Mode.ENDING, Mode.WALKING): "wrong",
        (Mode.ENDING, Mode.OVER): "end it",
    }
)
"""What leads from mode to mode. A question in between leads back to the mode that it interrupted."""


def chart() -> str:
    """The table as Mermaid text: the modes, what leads from one to the other, and what each opens."""
    arrows = [f"    {one.value} --> {other.value}: {why}" for (one, other), why in _CAUSES.items()]
    notes = [line for mode in Mode for line in _note(mode)]
    return "\n".join(
        [
            "```mermaid",
            "stateDiagram-v2",
            f"    [*] --> {Mode.WALKING.value}",
            *arrows,
            f"    {Mode.OVER.value} --> [*]",
            *notes,
            "```",
        ]
    )


def _note(mode: Mode) -> list[str]:
    """What may be said in a mode; nothing where nothing may."""
    rules = [rule.replace("_", " ") for rule, modes in OPEN.items() if mode in modes]
    if not rules:
        return []
    return [f"    note right of {mode.value}", f"        {', '.join(rules)}", "    end note"]
