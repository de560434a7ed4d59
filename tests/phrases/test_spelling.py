"""Words that a recogniser does not know, and grammars written for PocketSphinx."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from pathlib import Path

import pytest

from handsfree.care.vocabulary import vocabulary
from handsfree.errors import GrammarError, UnknownWord
from handsfree.lexicon import Lexicon
from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.spelling import read_sounds
from handsfree.signals import Listen
from handsfree.testing.disjoint import overlap
from handsfree.wiring import read_shipped, sounds
from tests.dialogues import shipped as checklist
from tests.phrases.oracle import read
from tests.phrases.test_shipped import MOMENTS
from tests.phrases.written import written

KNOWN = frozenset(
    [
        "po",
        "vid",
        "own",
        "ringers",
        "lactate",
        "twenty",
        "five",
        "twentyfive",
        "clamps",
        "is",
        "new",
        "york",
        "saint",
    ]
)
SOUNDS = {"povidone": ("bogus spelling", "po vid own"), "st. york": ("saint york",)}


@pytest.mark.parametrize(
    ("token", "sounds"),
    [
        ("Lactate", "lactate"),
        ("povidone", "po vid own"),
        ("Ringer's", "ringers"),
        ("twenty-five", "twenty five"),
        ("clamp’s", "clamps"),
        ("five!", "five"),
        ('"New York"', "new york"),
        ('"St. York"', "saint york"),
        ('"povidone five"', "po vid own five"),
    ],
)
def test_spellings(token: str, sounds: str) -> None:
    """A word is heard in the recogniser's spelling and read in the grammar's."""
    grammar = compile_grammar(read(f"public <a> = {token};"), knows=KNOWN.__contains__, sounds=SOUNDS)
    (node,) = grammar.match(tuple(sounds.split()))
    assert (token.strip('"'),) == node.words
    assert {sounds} == set(grammar.phrases())
    assert frozenset(sounds.split()) == grammar.words


WAYS = {
    "povidone": ("po vid own", "bogus", "po own vid"),
    "lactate": ("lactate", "twenty lactate"),
    "five": ("twenty", "new"),
}


@pytest.mark.parametrize(
    ("token", "heard", "unheard"),
    [
        ("povidone", ["po vid own", "po own vid"], ["povidone", "bogus"]),
        ("lactate", ["lactate", "twenty lactate"], []),
        ("five", ["five"], ["twenty", "new"]),
        ('"povidone lactate"', ["po vid own lactate", "po own vid twenty lactate"], ["po vid own"]),
    ],
)
def test_more_ways_than_one(token: str, heard: list[str], unheard: list[str]) -> None:
    """Every spelling that the recogniser knows is heard, and read as the word; a word that it knows itself is
    heard in other ways only where it stands among them."""
    grammar = compile_grammar(read(f"public <a> = {token};"), knows=KNOWN.__contains__, sounds=WAYS)
    for way in heard:
        (node,) = grammar.match(tuple(way.split()))
        assert (token.strip('"'),) == node.words
    assert not [way for way in unheard if grammar.match(tuple(way.split()))]


@pytest.mark.parametrize("token", ["extravasation", "twenty-six", '"new extravasation"'])
def test_unknown_words(token: str) -> None:
    """A word that cannot be spelled is refused with file, line, column and its name."""
    with pytest.raises(UnknownWord) as refusal:
        compile_grammar(read(f"public <a> = five | {token};"), knows=KNOWN.__contains__, sounds=SOUNDS)
    assert (refusal.value.file, refusal.value.line, refusal.value.column) == ("g.jsgf", 3, 21)
    assert token.strip('"').split()[-1] in str(refusal.value)


def test_unused_rules_need_no_spelling() -> None:
    """Only words that can be said must be known."""
    compile_grammar(read("public <a> = five; <b> = extravasation;"), knows=KNOWN.__contains__)


@pytest.mark.parametrize("text", ["a = 1", 'a = "b"', 'a = [""]', "a = [", "a = [1]"])
def test_broken_tables(text: str) -> None:
    """A table that is no table of spellings is refused in one line."""
    with pytest.raises(GrammarError, match=r"sounds_like\.toml: "):
        read_sounds(text, "sounds_like.toml")


def shipped() -> dict[str, tuple[str, ...]]:
    table = files("handsfree.phrases").joinpath("sounds_like.toml")
    return dict(read_sounds(table.read_text(encoding="utf-8"), "sounds_like.toml"))


@pytest.mark.vosk
def test_vosk_hears_every_word_of_the_table(vosk_model: Path) -> None:
    """Each word of the shipped table is known to Vosk or has a spelling that is."""
    import vosk

    vosk.SetLogLevel(-1)
    model = vosk.Model(str(vosk_model))
    assert not _deaf_to(lambda word: model.vosk_model_find_word(word) >= 0)


@pytest.mark.vosk
@pytest.mark.parametrize("listen", MOMENTS, ids=range(len(MOMENTS)))
def test_no_spelling_is_another_command(vosk_model: Path, listen: Listen) -> None:
    """As Vosk hears them, too, no sentence of a moment is two commands."""
    assert overlap(_heard_by_vosk(vosk_model).grammar(listen)) is None


@cache
def _heard_by_vosk(folder: Path) -> Lexicon:
    import vosk

    vosk.SetLogLevel(-1)
    model = vosk.Model(str(folder))
    knows = cache(lambda word: bool(model.vosk_model_find_word(word) >= 0))
    return Lexicon(vocabulary(checklist()), read_shipped, knows, sounds())


def test_pocketsphinx_hears_every_word_of_the_table(decoder: object) -> None:
    """Each word of the shipped table is known to PocketSphinx or has a spelling that is."""
    assert not _deaf_to(lambda word: decoder.lookup_word(word) is not None)  # type: ignore[attr-defined]


def _deaf_to(knows: object) -> list[str]:
    assert callable(knows)
    return [
        word
        for word, ways in shipped().items()
        if not knows(word) and not any(all(map(knows, way.split())) for way in ways)
    ]


@pytest.fixture(scope="module")
def decoder() -> object:
    from pocketsphinx import Config, Decoder

    return Decoder(Config(lm=None, loglevel="FATAL"))


@pytest.mark.parametrize(
    "body",
    [
        "public <a> = [very] good | <VOID> bad | not bad;",
        "public <a> = /2/ good | /0/ bad | /3.5/ fine;",
        'public <a> = ("new york" | door)+ {t};',
        "public <a> = good* bad; public <b> = <c> [<b>]; <c> = one | two;",
        "public <a> = one <b> {t}; <b> = two <a> | three;",
        "public <a> = <NULL> one | two (<NULL> | three);",
        "public <a> = one <b>; <b> = <VOID>; public <c> = two <b>* three;",
        "public <a> = ((one | two) three)+ [four] five;",
    ],
)
def test_pocketsphinx_reads_what_is_written(decoder: object, body: str) -> None:
    """PocketSphinx builds the same language from the exported text."""
    grammar = compile_grammar(read(body))
    decoder.add_jsgf_string("written", written(grammar.rules))  # type: ignore[attr-defined]
    network = decoder.get_fsg("written")  # type: ignore[attr-defined]
    sentences = [words for words in grammar.sentences(60) if words]
    assert sentences == [words for words in sentences if network.accept(" ".join(words))]
    tried = {words[:cut] + words[cut + 1 :] for words in sentences for cut in range(len(words))}
    wrong = [
        words for words in tried if words and not grammar.match(words) and network.accept(" ".join(words))
    ]
    assert not wrong


def test_two_rules_of_one_name() -> None:
    """Rules of different grammars with the same short name stay two, and one public rule holds all."""
    from handsfree.phrases.link import read_grammar

    other = "#JSGF V1.0;\ngrammar other;\npublic <a> = one;"
    text = (
        "#JSGF V1.0;\ngrammar g;\nimport <other.*>;\npublic <a> = two <other.a>; public <sentence> = three;"
    )
    whole = written(compile_grammar(read_grammar(text, "g.jsgf", lambda _: other)).rules)
    assert whole.count("public") == 1
    assert compile_grammar(read_grammar(whole, "w.jsgf")).match(("two", "one"))
