"""Says in one sentence what is wrong with a grammar file, where, and what to do."""

from __future__ import annotations

from handsfree.errors import GrammarError
from handsfree.phrases.lexemes import END, Lexeme
from handsfree.phrases.tree import Place
from handsfree.words import worded

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


def unexpected(lexeme: Lexeme, place: Place, awaited: str) -> GrammarError:
    """The error for a lexeme that cannot stand where it does. awaited: what could."""
    if lexeme.kind in _UNCLOSED:
        return refuse(place, *_UNCLOSED[lexeme.kind])
    found = worded("the end of the file") if lexeme.kind == END else f"“{lexeme.text}”"
    return refuse(
        place,
        worded("{found} cannot stand here", found=found),
        worded("Expected {awaited}.", awaited=awaited),
    )
