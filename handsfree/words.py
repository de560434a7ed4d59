"""The words of the program, in the language of its user: each sentence is looked up where it is said."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from pathlib import Path
from string import Formatter
from typing import TYPE_CHECKING

from handsfree.errors import MissingPart

if TYPE_CHECKING:
    from polib import POFile

VARIABLE = "HANDSFREE_WORDS"
"""Names a file of another language's words: gettext's .po, made from words.pot."""

IN_SCRIPT = re.compile(r'\bworded\(\s*"([^"\\]+)"')
"""A sentence that the script of a page words."""


def worded(sentence: str, /, **parts: object) -> str:
    """The sentence as the user's language has it, English where it has not, its named places filled."""
    text = _WORDS.get(sentence, sentence)
    return text.format(**parts) if parts else text


def in_script(script: str) -> dict[str, str]:
    """The sentences of a page's script with their words: what the page brings along for it."""
    return {sentence: worded(sentence) for sentence in IN_SCRIPT.findall(script)}


def read(file: str) -> POFile:
    """A .po file. Raises MissingPart where it cannot be read."""
    import polib

    try:
        return polib.pofile(Path(file).read_text("utf-8"))
    except (OSError, ValueError) as fault:
        why = getattr(fault, "strerror", None) or fault
        wrong = f"The words in {file} cannot be read: {why}."
        raise MissingPart(wrong, f"Mend the file, or unset {VARIABLE}.") from None


def usable(file: POFile) -> Mapping[str, str]:
    """What is translated in a file, by its English.

    Left out is what has other places than the English: nobody fills them, and a place with a dot or a
    bracket in it would look into the program. So is what would break a line in two.
    """
    done = {one.msgid: one.msgstr for one in file.translated_entries()}
    return {english: words for english, words in done.items() if _fits(english, words)}


def _fits(english: str, words: str) -> bool:
    return places(english) == places(words) and ("\n" in english or "\n" not in words)


def places(text: str) -> frozenset[tuple[str | None, ...]]:
    """What is to be filled in, and how it is written; nothing where braces are only braces."""
    try:
        found = [(name, form, how) for _, name, form, how in Formatter().parse(text)]
    except ValueError:
        return frozenset()
    return frozenset(place for place in found if place[0] is not None)


_FILE = read(os.environ[VARIABLE]) if os.environ.get(VARIABLE) else None
_WORDS: Mapping[str, str] = usable(_FILE) if _FILE else {}

LANGUAGE = (_FILE and _FILE.metadata.get("Language")) or "en"
"""Of the words, for pages (BCP 47)."""
