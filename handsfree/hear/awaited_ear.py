"""An ear that is loaded beside other work: Vosk takes a third of a second for it, and no lock of Python's."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import cached_property

from handsfree.ports import Ear, Sentences
from handsfree.signals import Frame, Utterance


class AwaitedEar:
    """Ear that a thread loads; who asks it first waits for it.

    load: gives the ear. What it raises is raised to whoever asks, each time.
    """

    def __init__(self, load: Callable[[], Ear]) -> None:
        loader = ThreadPoolExecutor(1, "ear")
        self._loading = loader.submit(load)
        loader.shutdown(wait=False)

    @cached_property
    def _ear(self) -> Ear:
        return self._loading.result()

    @property
    def stirred(self) -> bool:
        """Whether what it hears now may be speech."""
        return self._ear.stirred

    def knows(self, word: str) -> bool:
        """Tell whether the ear can hear this word (lower case)."""
        return self._ear.knows(word)

    def listen(self, sentences: Sentences) -> None:
        """Swap the grammar; what was half heard is dropped."""
        self._ear.listen(sentences)

    def hear(self, frame: Frame | None) -> Utterance | None:
        """Take one frame; None ends the sound. Returns an utterance when one is complete."""
        return self._ear.hear(frame)
