"""Reads a policy from TOML, and refuses a broken one by file and line. What the keys mean: docs/policy.md."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from handsfree.care.reminders.policy import ALWAYS, RUNNING, Interval, over
from handsfree.care.reminders.reminder import FIRST_COUNT, KINDS, OWN
from handsfree.errors import PolicyError
from handsfree.words import worded

CASES = (
    *("child", "watched", "vesicant", "emergency", "lipid", "intermittent", "additive"),
    *("blood", "nutrition", "propofol", "intraosseous"),
)
"""What can be said of patient, line and fluid, and shorten an interval: `<case>` in grammars/always.jsgf."""

REMINDED = tuple(kind for kind in (*KINDS, FIRST_COUNT) if kind not in (OWN, "bag_empty"))
"""Kinds that a policy may time: the user's own are timed by the user, an empty bag by its rate."""

_KEYS = {"kind", "case", "after", "source", "edition"}
_UNITS_S = MappingProxyType({"min": 60, "h": 3600, "d": 86_400})
_LONGEST_S = 30 * 86_400
_AFTER = re.compile(r"([1-9][0-9]{0,3}) ?(min|h|d)")
_TOML_PLACE = re.compile(r"\(at line (\d+), column \d+\)")
_SEE = worded("See docs/policy.md for what can stand here.")


def read_policy(text: str, file: str, named: Callable[[str], tuple[Interval, ...]]) -> tuple[Interval, ...]:
    """The intervals of a policy, over those of the built-in one that it is based on.

    named: the intervals of a built-in policy. Raises PolicyError by file and line.
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        place = _TOML_PLACE.search(str(fault))
        line = int(place[1]) if place else text.count("\n") + 1
        raise PolicyError(
            file, line, worded("not TOML: {fault}.", fault=fault), worded("Mend this line and start again.")
        ) from None
    return _Reader(text, file).read(table, named)


class _Reader:
    """One file: its text says on which line a fault is."""

    def __init__(self, text: str, file: str) -> None:
        self._rows, self._file = text.splitlines(), file
        self._heads = [
            i for i, row in enumerate(self._rows, 1) if re.match(r"\s*\[\[\s*interval\s*\]\]", row)
        ]

    def read(
        self, table: Mapping[str, Any], named: Callable[[str], tuple[Interval, ...]]
    ) -> tuple[Interval, ...]:
        """All intervals. Raises PolicyError."""
        unknown = sorted(set(table) - {"title", "based_on", "interval", "limit"})
        if unknown:
            raise self._fault(
                self._line(unknown[0]), worded("the key {unknown} is not known.", unknown=unknown[0])
            )
        if not isinstance(table.get("title", ""), str):
            raise self._fault(self._line("title"), worded("title should be a text in quotes."))
        found = table.get("interval", [])
        if not isinstance(found, list) or len(found) != len(self._heads):
            raise self._fault(
                self._line("interval"), worded("begin each interval with its own [[interval]].")
            )
        ours = [self._interval(one, head) for one, head in zip(found, self._heads, strict=True)]
        for i, one in enumerate(ours):
            if (one.kind, one.case) in [(other.kind, other.case) for other in ours[:i]]:
                raise self._fault(
                    self._heads[i],
                    worded("{what} stands here twice.", what=f"{one.kind} {one.case}".rstrip()),
                )
        return over(self._base(table, named), ours)

    def _base(
        self, table: Mapping[str, Any], named: Callable[[str], tuple[Interval, ...]]
    ) -> tuple[Interval, ...]:
        name = table.get("based_on", "")
        if name == "":
            return ()
        try:
            return named(name if isinstance(name, str) else "")
        except KeyError as known:
            wrong = worded("there is no built-in policy {name!r}.", name=name)
            raise self._fault(
                self._line("based_on"), wrong, worded("Take one of: {names}.", names=known.args[0])
            ) from None

    def _interval(self, one: Mapping[str, Any], head: int) -> Interval:
        unknown = sorted(set(one) - _KEYS)
        if unknown:
            raise self._fault(
                self._line(unknown[0], head),
                worded("the key {unknown} is not known in an interval.", unknown=unknown[0]),
            )
        for key in sorted(_KEYS - {"case"}):
            if not isinstance(one.get(key), str) or not one[key].strip():
                raise self._fault(
                    self._line(key, head), worded("this interval has no {key} in quotes.", key=key)
                )
        kind, case = one["kind"], one.get("case", ALWAYS)
        if kind not in REMINDED:
            raise self._fault(
                self._line("kind", head),
                worded("no reminder is called {kind}.", kind=kind),
                worded("Take one of: {names}.", names=", ".join(REMINDED)),
            )
        if case not in (ALWAYS, RUNNING, *CASES):
            raise self._fault(
                self._line("case", head),
                worded("no case is called {case}.", case=case),
                worded("Take one of: {names}.", names=", ".join((RUNNING, *CASES))),
            )
        return Interval(kind, case, self._seconds(one["after"], head), one["source"], one["edition"])

    def _seconds(self, after: str, head: int) -> int:
        found = _AFTER.fullmatch(after.strip())
        seconds = int(found[1]) * _UNITS_S[found[2]] if found else 0
        if not 0 < seconds <= _LONGEST_S:
            wrong = worded("after should be from 1 min to 30 d, not {after!r}.", after=after)
            raise self._fault(
                self._line("after", head), wrong, worded('Write for example "15 min", "4 h" or "7 d".')
            )
        return seconds

    def _line(self, key: str, head: int = 0) -> int:
        """The line on which a key stands, behind the head of its table; the head's own where it does not."""
        tables = (i for i, row in enumerate(self._rows, 1) if re.match(r"\s*\[\[", row))
        end = next((one - 1 for one in tables if one > head), len(self._rows))
        rows = enumerate(self._rows[head:end], head + 1)
        return next((i for i, row in rows if re.match(rf"\s*(\[\[?\s*)?{key}\b", row)), max(head, 1))

    def _fault(self, line: int, wrong: str, next_step: str = _SEE) -> PolicyError:
        return PolicyError(self._file, line, wrong, next_step)
