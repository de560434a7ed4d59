"""Says in one sentence what is wrong with a grammar file, where, and what to do."""

from __future__ import annotations

from collections.abc import Iterable

from lark.exceptions import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from handsfree.errors import GrammarError
from handsfree.phrases.tree import Place

_SAID_AS = {
    "HEADER": "the header “#JSGF V1.0;”",
    "GRAMMAR": "“grammar name;”",
    "NAME": "a name",
    "IMPORT": "an import",
    "PUBLIC": "“public”",
    "RULENAME": "a <rule>",
    "WEIGHT": "a /weight/",
    "TAG": "a {tag}",
    "QUOTED": "a “quoted token”",
    "TOKEN": "a word",
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
    "{": ("this tag is not closed", "Close it with “}”; inside a tag write “\\}” for “}”."),
    '"': ("this quoted token is not closed", "Close it with a quotation mark."),
    "/": ("this is neither a comment nor a weight", "Write // or /* */ for a comment, /2.5/ for a weight."),
    "\\": ("a backslash stands only inside quotes and tags", "Take it away, or quote the token."),
    "<": ("this is not a rule name", "Write <name>, of letters and digits, without spaces."),
}


def refuse(place: Place, wrong: str, next_step: str) -> GrammarError:
    """The error for something at this place."""
    return GrammarError(place.file, place.line, f"{wrong}.", next_step, column=place.column)


def refusal(unexpected: UnexpectedInput, text: str, file: str) -> GrammarError:
    """The error for what the parser did not expect in `text`."""
    if not text.removeprefix("\ufeff").startswith("#JSGF"):
        return refuse(Place(file, 1, 1), "this is not a grammar file", "Begin it with “#JSGF V1.0;”.")
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
            found, place = "the end of the file", Place(file, len(lines), len(lines[-1]) + 1)
    return refuse(place, f"{found} cannot stand here", _awaiting(expected or ()))


def _awaiting(terminals: Iterable[str]) -> str:
    awaited = sorted(_SAID_AS[name] for name in terminals if name in _SAID_AS)
    if not awaited:
        return "Take it away."
    *others, last = awaited
    return f"Expected {', '.join(others)} or {last}." if others else f"Expected {last}."
