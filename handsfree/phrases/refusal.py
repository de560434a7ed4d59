"""Says in one sentence what is wrong with a grammar file, where, and what to do."""

from __future__ import annotations

from collections.abc import Iterable

from lark.exceptions import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from handsfree.errors import GrammarError
from handsfree.phrases.tree import Place
from handsfree.words import worded

_SAID_AS = {
    "HEADER": worded("the header “#JSGF V1.0;”"),
    "GRAMMAR": worded("“grammar name;”"),
    "NAME": worded("a name"),
    "IMPORT": worded("an import"),
    "PUBLIC": "“public”",
    "RULENAME": worded("a <rule>"),
    "WEIGHT": worded("a /weight/"),
    "TAG": worded("a {tag}"),
    "QUOTED": worded("a “quoted token”"),
    "TOKEN": worded("a word"),
    "SEMICOLON": "“;”",
    "EQUAL": "“=”",
    "VBAR": "“|”",
    "STAR": "“*”",
    "PLUS": "“+”",
    "LPAR": "“(”",
    "RPAR": "“)”",
    "LSQB": "“[”",
    "RSQB": "“]”",
}

_UNCLOSED = {
    "{": (worded("this tag is not closed"), worded("Close it with “}”; inside a tag write “\\}” for “}”.")),
    '"': (worded("this quoted token is not closed"), worded("Close it with a quotation mark.")),
    "/": (
        worded("this is neither a comment nor a weight"),
        worded("Write // or /* */ for a comment, /2.5/ for a weight."),
    ),
    "\\": (
        worded("a backslash stands only inside quotes and tags"),
        worded("Take it away, or quote the token."),
    ),
    "<": (worded("this is not a rule name"), worded("Write <name>, of letters and digits, without spaces.")),
}


def refuse(place: Place, wrong: str, next_step: str) -> GrammarError:
    """The error for something at this place."""
    return GrammarError(place.file, place.line, f"{wrong}.", next_step, column=place.column)


def refusal(unexpected: UnexpectedInput, text: str, file: str) -> GrammarError:
    """The error for what the parser did not expect in `text`."""
    if not text.removeprefix("\ufeff").startswith("#JSGF"):
        return refuse(
            Place(file, 1, 1), worded("this is not a grammar file"), worded("Begin it with “#JSGF V1.0;”.")
        )
    place = Place(file, unexpected.line, unexpected.column)
    if isinstance(unexpected, UnexpectedCharacters):
        if unexpected.char in _UNCLOSED:
            return refuse(place, *_UNCLOSED[unexpected.char])
        found, expected = f"“{unexpected.char}”", unexpected.allowed
    else:
        assert isinstance(unexpected, UnexpectedToken)
        found, expected = f"“{unexpected.token}”", unexpected.accepts or unexpected.expected
        if unexpected.token.type == "$END":
            lines = text.splitlines()
            found, place = worded("the end of the file"), Place(file, len(lines), len(lines[-1]) + 1)
    return refuse(place, worded("{found} cannot stand here", found=found), _awaiting(expected or ()))


def _awaiting(terminals: Iterable[str]) -> str:
    awaited = sorted(_SAID_AS[name] for name in terminals if name in _SAID_AS)
    if not awaited:
        return worded("Take it away.")
    *others, last = awaited
    if others:
        return worded("Expected {others} or {last}.", others=", ".join(others), last=last)
    return worded("Expected {last}.", last=last)
