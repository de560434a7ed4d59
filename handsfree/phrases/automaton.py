"""The grammar as a finite automaton over the recogniser's words, unfolded only as far as somebody walks.

A state is a node of the network and the stack of what is to be finished. Recursion is to the right only, so
stacks are bounded and the automaton is finite and exact. Nothing is unfolded before it is needed: a grammar
of ten million sentences costs no more to compile than its text is long.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import assert_never

from handsfree.phrases.network import (
    RULE_END,
    Begin,
    Call,
    End,
    Enter,
    Jump,
    Leave,
    Mark,
    Network,
    Say,
    Skip,
)
from handsfree.phrases.tree import short

Marks = tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Move:
    """One way on with a word. marks: what is passed before the word, and the token that it begins."""

    marks: Marks
    to: int


@dataclass(frozen=True, slots=True)
class Steps:
    """All ways on from a state. moves: by word. ends: the marks of each way to end the sentence here."""

    moves: Mapping[str, tuple[Move, ...]]
    ends: tuple[Marks, ...]


@dataclass(frozen=True, slots=True)
class _Return:
    """On the stack: a rule that is to be gone on with at a node."""

    to: int


@dataclass(frozen=True, slots=True)
class _Pass:
    """On the stack: a pass of a loop. said: it has taken a word."""

    said: bool = False


class Automaton:
    """States are small integers; they mean something only to the automaton that gave them."""

    def __init__(self, network: Network) -> None:
        self._arcs = network.arcs
        self._entries = network.entries
        self._states: list[tuple[int, int]] = []
        self._numbers: dict[tuple[int, int], int] = {}
        self._stacks: list[tuple[_Return | _Pass | None, int]] = [(None, 0)]
        self._stack_numbers: dict[tuple[_Return | _Pass | None, int], int] = {}
        self._stacks_said: dict[int, int] = {0: 0}
        self._steps: dict[int, Steps] = {}
        self.start = self._state(network.start, 0)

    def steps(self, state: int) -> Steps:
        """What can follow in this state."""
        if state not in self._steps:
            moves: dict[str, list[Move]] = {}
            ends: dict[Marks, None] = {}
            self._walk(*self._states[state], (), moves, ends)
            self._steps[state] = Steps({sound: _apart(ways) for sound, ways in moves.items()}, tuple(ends))
        return self._steps[state]

    def ways(self, states: Iterable[int]) -> dict[str, frozenset[int]]:
        """Where each word leads from any of some states."""
        ways: dict[str, set[int]] = {}
        for state in states:
            for sound, moves in self.steps(state).moves.items():
                ways.setdefault(sound, set()).update(move.to for move in moves)
        return {sound: frozenset(to) for sound, to in ways.items()}

    def _walk(
        self, node: int, stack: int, marks: Marks, moves: dict[str, list[Move]], ends: dict[Marks, None]
    ) -> None:
        """Collect every way from here up to the next word or the end of the sentence."""
        if node == RULE_END:
            frame, below = self._stacks[stack]
            if isinstance(frame, _Return):
                self._walk(frame.to, below, (*marks, Leave()), moves, ends)
            else:
                ends[(*marks, Leave())] = None
            return
        for arc in self._arcs[node]:
            match arc:
                case Say(sound, token, to):
                    passed = marks if token is None else (*marks, token)
                    moves.setdefault(sound, []).append(Move(passed, self._state(to, self._said(stack))))
                case Skip(to, label):
                    self._walk(to, stack, marks if label is None else (*marks, label), moves, ends)
                case Call(rule, back):
                    inner = self._push(_Return(back), stack)
                    self._walk(self._entries[rule], inner, (*marks, Enter(short(rule))), moves, ends)
                case Jump(rule, within):
                    entered = (*marks, Enter(short(rule), within))
                    self._walk(self._entries[rule], stack, entered, moves, ends)
                case Begin(to):
                    self._walk(to, self._push(_Pass(), stack), marks, moves, ends)
                case End(again, empty):
                    frame, below = self._stacks[stack]
                    follow = again if frame == _Pass(said=True) else empty
                    if follow is not None:
                        self._walk(follow, below, marks, moves, ends)
                case _:
                    assert_never(arc)

    def _said(self, stack: int) -> int:
        """The stack after a word: every pass on it has taken one."""
        if stack not in self._stacks_said:
            frame, below = self._stacks[stack]
            said = _Pass(said=True) if isinstance(frame, _Pass) else frame
            self._stacks_said[stack] = self._push(said, self._said(below))
        return self._stacks_said[stack]

    def _push(self, frame: _Return | _Pass | None, below: int) -> int:
        key = (frame, below)
        if key not in self._stack_numbers:
            self._stack_numbers[key] = len(self._stacks)
            self._stacks.append(key)
        return self._stack_numbers[key]

    def _state(self, node: int, stack: int) -> int:
        key = (node, stack)
        if key not in self._numbers:
            self._numbers[key] = len(self._states)
            self._states.append(key)
        return self._numbers[key]


def _apart(ways: list[Move]) -> tuple[Move, ...]:
    """Each way once. Those that lead to different states differ, and need not be compared."""
    return tuple(ways if len({way.to for way in ways}) == len(ways) else dict.fromkeys(ways))
