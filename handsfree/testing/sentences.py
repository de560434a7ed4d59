"""A grammar that is a list of sentences."""

from __future__ import annotations

from handsfree.phrases.numbers import goes_on
from handsfree.ports import Graph, Standing
from handsfree.signals import Node


class ListedSentences:
    """Sentences over a plain list. rule: name of the one rule that they all belong to."""

    loose = False

    def __init__(self, *sentences: str, rule: str = "said") -> None:
        self._sentences = tuple(tuple(sentence.split()) for sentence in sentences)
        self._rule = rule

    @property
    def words(self) -> frozenset[str]:
        """Every word that some sentence uses."""
        return frozenset(word for sentence in self._sentences for word in sentence)

    def standing(self, words: tuple[str, ...]) -> Standing:
        """Tell whether `words` are a sentence, and whether and how more can follow."""
        begun = [sentence for sentence in self._sentences if sentence[: len(words)] == words]
        follow = frozenset(sentence[len(words)] for sentence in begun if len(sentence) > len(words))
        return Standing(
            possible=bool(begun),
            complete=words in begun,
            more=bool(follow),
            counting=bool(words) and (words[-1] in follow or goes_on(words[-1], follow)),
        )

    def match(self, words: tuple[str, ...]) -> tuple[Node, ...]:
        """All readings of `words` as a whole sentence: one or none."""
        return (Node(self._rule, words),) if words in self._sentences else ()

    def phrases(self) -> tuple[str, ...]:
        """Give the sentences themselves."""
        return tuple(" ".join(sentence) for sentence in self._sentences)

    def opposites(self) -> tuple[str, ...]:
        """None are known."""
        return ()

    def graph(self) -> Graph:
        """A tree: states are the beginnings of sentences."""
        begun = sorted({words[:length] for words in self._sentences for length in range(len(words) + 1)})
        numbers = {words: number for number, words in enumerate(begun)}
        moves: list[dict[str, int]] = [{} for _ in begun]
        for words in begun[1:]:
            moves[numbers[words[:-1]]][words[-1]] = numbers[words]
        return Graph(tuple(moves), frozenset(numbers[words] for words in self._sentences))
