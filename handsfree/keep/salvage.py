"""What is whole of a session, and what is not: named by its numbers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Any

from handsfree.keep.chain import End, proven
from handsfree.ports import Damage, Row, Salvaged
from handsfree.words import worded


def salvaged(session: str, stored: Iterable[Any], end: End) -> Salvaged:
    """The rows that are what was written, from the columns of the table in order of seq.

    end: how far the session had come, by the side file. A chain that does not lead there is another one.
    """
    whole: dict[int, tuple[Row, str]] = {}
    bad: set[int] = set()
    unnumbered = False
    for proof in proven(stored):
        if proof.row is not None and proof.seq >= 1:
            whole.setdefault(proof.seq, (proof.row, proof.chain))
        elif isinstance(proof.seq, int):
            bad.add(proof.seq)
        else:
            # A damaged column may be of any type.
            unnumbered = True
    other = {end.seq} if end.seq in whole and whole[end.seq][1] != end.chain else set()
    last = max((end.seq, *whole), default=0)
    lost = sorted((set(range(1, last + 1)) | bad) - (whole.keys() - other))
    if unnumbered and not lost:
        bad.add(last + 1)
        lost = [last + 1]
    rows = [whole[seq] for seq in sorted(whole.keys() - other)]
    return Salvaged(
        tuple(row for row, _ in rows),
        tuple(chain for _, chain in rows),
        tuple(_named(session, lost, bad, other)),
        last,
    )


_OTHER = worded("not the one that was committed")
_BAD = worded("not proven to be what was written")
_MISSING = worded("missing")


def _named(session: str, lost: list[int], bad: set[int], other: set[int]) -> Iterator[Damage]:
    """Numbers that follow one another and are lost in the same way, as one damage."""
    ways = [_OTHER if seq in other else _BAD if seq in bad else _MISSING for seq in lost]
    ends = [n for n, (one, two) in enumerate(pairwise(zip(lost, ways, strict=True)), 1) if _parted(one, two)]
    for begin, end in pairwise([0, *ends, len(lost)] if lost else []):
        first, last, way = lost[begin], lost[end - 1], ways[begin]
        parts = {"first": first, "last": last, "session": session, "way": way}
        if first == last:
            yield Damage(first, last, worded("Row {first} of session {session} is {way}.", **parts))
        else:
            says = worded("Rows {first} to {last} of session {session} are {way}.", **parts)
            yield Damage(first, last, says)


def _parted(one: tuple[int, str], two: tuple[int, str]) -> bool:
    return two[0] != one[0] + 1 or two[1] != one[1]
