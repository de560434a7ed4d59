"""Grammar files of the user: the one that was named, and its imports from the same folder."""

from __future__ import annotations

import re
from pathlib import Path

from handsfree.errors import GrammarError
from handsfree.phrases.link import read_grammar
from handsfree.phrases.tree import Rules, short
from handsfree.words import worded

_HEADER = re.compile(rb"\s*#JSGF\s+V1\.0\s+(?P<encoding>[A-Za-z][\w.:-]*)")
"""JSpeech Grammar Format 1.0, section 3.1: "#JSGF version char-encoding locale;"."""

LARGEST_MB = 10
"""Nobody writes a longer one. One of 5 MB took 30 s and 1 GB of memory; for 100 MB, 3 GB were too little."""


def read_grammar_file(path: Path) -> Rules:
    """Read a grammar file and what it imports. Raises GrammarError."""
    try:
        text = _text(path)
    except OSError as wrong:
        reason = worded("the grammar cannot be read: {why}.", why=wrong.strerror)
        raise GrammarError(str(path), 0, reason, worded("Give a JSGF file with --grammar.")) from wrong
    return read_grammar(text, str(path), lambda name: _text(path.parent / f"{short(name)}.jsgf"))


def _text(path: Path) -> str:
    """Text in the encoding that the header names, UTF-8 where it names none. Raises OSError, GrammarError."""
    with path.open("rb") as file:
        raw = file.read(LARGEST_MB * 1_000_000 + 1)
    if len(raw) > LARGEST_MB * 1_000_000:
        reason = worded("the grammar is longer than {most} MB.", most=LARGEST_MB)
        raise GrammarError(str(path), 0, reason, worded("Leave out what nobody says."))
    header = _HEADER.match(raw)
    encoding = header["encoding"].decode() if header else "utf-8-sig"
    try:
        return raw.decode(encoding)
    except (LookupError, UnicodeError) as wrong:
        reason = worded("this is not text in {encoding}.", encoding=encoding.removesuffix("-sig"))
        step = worded("Save it as UTF-8, or name its encoding in the header.")
        raise GrammarError(str(path), 1, reason, step) from wrong
