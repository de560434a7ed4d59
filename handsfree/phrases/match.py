"""From the marks passed on the way through the automaton to the tree of rules that was used."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import assert_never

from handsfree.phrases.automaton import Automaton, Marks
from handsfree.phrases.network import Enter, Label, Leave, Mark, Token
from handsfree.signals import Node

MOST = 32
"""Most readings of one sentence that are told apart."""


def match(automaton: Automaton, words: tuple[str, ...]) -> tuple[Node, ...]:
    """All readings of `words` as a whole sentence, at most MOST, in order of the grammar.

    States are gone through word by word, each with the different marks that lead to it: the time grows with
    the number of words, not with the number of ways.
    """
    pasts: dict[int, dict[Marks, None]] = {automaton.start: {(): None}}
    for word in words:
        nexts: dict[int, dict[Marks, None]] = {}
        for state, known in pasts.items():
            for move in automaton.steps(state).moves.get(word, ()):
                _extend(nexts.setdefault(move.to, {}), known, move.marks)
        pasts = nexts
    whole: dict[Marks, None] = {}
    for state, known in pasts.items():
        for marks in automaton.steps(state).ends:
            _extend(whole, known, marks)
    return tuple(dict.fromkeys(map(_node, whole)))


def _extend(into: dict[Marks, None], known: Iterable[Marks], marks: Marks) -> None:
    for past in known:
        if len(into) >= MOST:
            return
        into[past + marks] = None


class _Open:
    """A rule that has begun and not ended."""

    def __init__(self, enter: Enter) -> None:
        self.enter = enter
        self.words: list[str] = []
        self.spare: list[int] = []
        self.tags: list[str] = []
        self.children: list[Node] = []

    def closed(self) -> Node:
        words, tags, children = tuple(self.words), tuple(self.tags), tuple(self.children)
        return Node(self.enter.rule, words, tags, children, tuple(self.spare))

    def say(self, token: Token) -> None:
        if token.spare:
            self.spare.append(len(self.words))
        self.words.append(token.text)


def _node(marks: Iterable[Mark]) -> Node:
    stack: list[_Open] = []
    node = Node("", ())
    for mark in marks:
        match mark:
            case Enter():
                stack.append(_Open(mark))
            case Label(tag):
                stack[-1].tags.append(tag)
            case Token():
                stack[-1].say(mark)
            case Leave():
                node = _closed(stack)
            case _:
                assert_never(mark)
    return node


def _closed(stack: list[_Open]) -> Node:
    """End the last rule, and with it those in which it was the last thing."""
    while True:
        ended = stack.pop()
        node = ended.closed()
        if stack:
            stack[-1].words += node.words
            stack[-1].children.append(node)
        if not ended.enter.within:
            return node


def parts(node: Node) -> dict[str, str | list[str]]:
    """Every rule used in a reading, the public one included, to the words it covered.

    A list where it was used more than once; a rule that covered no word is left out.
    """
    covered: dict[str, list[str]] = {}
    waiting = [node]
    while waiting:
        one = waiting.pop(0)
        if one.words:
            covered.setdefault(one.rule, []).append(" ".join(one.words))
        waiting = [*one.children, *waiting]
    return {rule: said[0] if len(said) == 1 else said for rule, said in covered.items()}


def spans(node: Node) -> Iterator[range]:
    """Where in the words of a reading each rule used in it stands, in order."""
    begin = 0
    for child in node.children:
        length = len(child.words)
        while node.words[begin : begin + length] != child.words:
            begin += 1
        yield range(begin, begin + length)
        begin += length
