"""The ear as a door has it: with a grammar, and open or deaf."""

from __future__ import annotations

from handsfree.ports import Ear, Sentences
from handsfree.signals import Frame, Gate, Utterance


class GatedEar:
    """Passes frames to an ear while it is open. What is half heard when grammar or gate change is dropped."""

    def __init__(self, ear: Ear) -> None:
        self._ear = ear
        self._sentences: Sentences | None = None
        self._gate = Gate.DEAF

    @property
    def stirred(self) -> bool:
        """Whether what it hears now may be speech."""
        return self._gate is Gate.OPEN and self._ear.stirred

    def open(self, sentences: Sentences, gate: Gate) -> None:
        """Say what may be heard from now on."""
        if sentences is not self._sentences or gate is not self._gate:
            self._sentences, self._gate = sentences, gate
            self._ear.listen(sentences)

    def hear(self, frame: Frame | None) -> Utterance | None:
        """Take one frame; None ends the sound."""
        return self._ear.hear(frame) if self._gate is Gate.OPEN else None
