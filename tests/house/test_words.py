"""Whatever people hear or see stands in one catalogue: nothing says a sentence that cannot be looked up."""

from __future__ import annotations

from io import BytesIO

import pytest
from babel.messages.pofile import read_po

from handsfree.care.infusion.formulas import SUBJECTS
from tests.house.words import CATALOGUE, Sentence, bare, gathered, loose, outside, unfilled, written

EXCUSED = {
    ("__main__.py", ""): "an old Python can load nothing else",
    ("words.py", ""): "where the words cannot be read there are none",
    ("care/chart.py", ""): "labels of the chart in DEVELOPERS.md",
    ("care/infusion/reference.py", ""): "headings of docs/numbers.md",
    ("care/infusion/sources.py", ""): "titles of what was published",
    ("care/drill/vocabulary.py", ""): "grammar: what is listened to",
    ("care/practice/vocabulary.py", ""): "the same",
    ("phrases/lexemes.py", "\n      (?P<blank>"): "the pattern of what grammars are made of",
    ("phrases/opposites.py", ""): "words that are listened to",
    ("hear/sphinx_ear.py", "K IH L"): "sounds",
    ("hear/fetch.py", "\nimport "): "a program",
    ("show/board/guard.py", "default-src"): "a header of HTTP",
    ("units.py", ""): "spellings that are read",
    ("say/calendar.py", "January"): "dates are said by code, as numbers are",
    ("cli/", "handsfree "): "commands as they are typed",
}
"""File, or folder, and how the text begins: why it need not be looked up."""

FORMULAS = {
    text for formulas in SUBJECTS.values() for one in formulas for text in (one.gives, one.text, *one.needs)
}
"""Read by the program itself; the names in them are looked up where they are shown."""


def _excuses(one: Sentence) -> list[tuple[str, str]]:
    return [(file, text) for file, text in EXCUSED if one.file.startswith(file) and one.text.startswith(text)]


def test_nothing_is_said_outside_the_catalogue() -> None:
    """Every sentence goes through `worded`, but for those that have a reason."""
    assert [] == [one for one in outside() if not _excuses(one) and one.text not in FORMULAS]


def test_every_reason_is_needed() -> None:
    """Nothing is excused that is not there."""
    assert set(EXCUSED) == {excuse for one in outside() for excuse in _excuses(one)}


def test_every_place_is_filled() -> None:
    """No sentence breaks when it is said, for want of a part."""
    assert [] == list(unfilled())


def test_catalogue_is_of_today() -> None:
    """If this fails: python -m tests.house.words --write."""
    assert written() == CATALOGUE.read_text("utf-8")


def test_catalogue_is_read_by_others() -> None:
    """Babel has a reader of its own, and finds the same sentences (GNU gettext manual, "PO Files")."""
    read = read_po(BytesIO(CATALOGUE.read_bytes()), abort_invalid=True)
    assert set(gathered()) == {str(one.id) for one in read if one.id}


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ('def f():\n    return "Put the tray down now."', ["Put the tray down now."]),
        ('def f(n):\n    return f"Put the {n} down right now."', ["Put the {} down right now."]),
        ('def f():\n    """Put the tray down now."""', []),
        ('def f():\n    return "put it down"', []),
        ('TRAY = "Put the tray down now."', ["Put the tray down now."]),
        ('TRAY = "tray_to_put_down"', []),
        ('TRAY = worded("Put the tray down now.")', []),
        ('TRAY = worded("Put the {what} down.", what="tray that stands there")', []),
        ('raise NotSo("Put the tray down now.")', ["Put the tray down now."]),
        ('raise ValueError("no tray is put down")', []),
    ],
)
def test_a_sentence_is_found(source: str, found: list[str]) -> None:
    """Wherever it stands; up to three words are a name or a label."""
    assert found == [one.text for one in loose(source, "loop.py")]


@pytest.mark.parametrize(
    ("page", "found"),
    [
        ("<h1>Times</h1>", ["Times"]),
        ('<h1>{{ worded("Times") }}</h1>', []),
        ('<p aria-label="Time line">{{ line }}</p>', ["Time line"]),
        ("{# a word to\nwhoever reads #}<p>{{ at }} s</p>", []),
    ],
)
def test_a_word_on_a_page_is_found(page: str, found: list[str]) -> None:
    """On a page a single word is one too."""
    assert found == [one.text for one in bare(page, "page.html.j2")]
