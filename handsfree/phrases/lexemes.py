"""Cuts the text of a grammar file into lexemes: JSpeech Grammar Format 1.0 (W3C Note, 5 June 2000)."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

_NAME = r"[\w+\-:;,=|/\\()\[\]@#%!^&~$]+"

_KINDS = re.compile(
    r"""
      (?P<blank> (?: \s+ | //[^\n\r]* | /\*.*?\*/ )+ )
    | (?P<header> \#JSGF [ \t]+ V1\.0 (?: [ \t]+ [^\s;]+ ){0,2} [ \t]* ; )
    | (?P<token> [^\s;=|*+<>()\[\]{}/"\\]+ )
    | (?P<rule> < [ \t]* NAME (?: \. NAME )* (?: \.\* )? [ \t]* > )
    | (?P<weight> /[ \t]* (?: \d+\.?\d* | \.\d+ ) (?: [eE][+-]?\d+ )? [fF]? [ \t]*/ )
    | (?P<tag> \{ (?: \\. | [^\\}] )* \} )
    | (?P<quoted> " (?: \\. | [^\\"] )* " )
    | (?P<sign> . )
    """.replace("NAME", _NAME),
    re.VERBOSE | re.DOTALL,
)

END = "end"
"""The kind of what stands behind the last lexeme."""

_LONG = ("blank", "tag", "quoted")
"""Kinds that may go over the end of a line."""


class Lexeme(NamedTuple):
    """kind: header, token, rule, weight, tag, quoted, END, or any other character itself.

    line and column count from 1.
    """

    kind: str
    text: str
    line: int
    column: int


def lexemes(text: str) -> Iterator[Lexeme]:
    """What the text is made of, without blanks and comments, and END at last."""
    line, line_at = 1, 0
    for found in _KINDS.finditer(text):
        kind, written, at = found.lastgroup or "", found.group(), found.start()
        if kind != "blank":
            yield Lexeme(written if kind == "sign" else kind, written, line, at - line_at + 1)
        if kind in _LONG and "\n" in written:
            line += written.count("\n")
            line_at = at + written.rindex("\n") + 1
    yield Lexeme(END, "", line, len(text) - line_at + 1)
