"""Grammar files, read by the letter: JSpeech Grammar Format, W3C Note 5 June 2000."""

from __future__ import annotations

import pytest

from handsfree.errors import GrammarError
from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.jsgf import parse
from handsfree.phrases.lexemes import lexemes
from handsfree.phrases.link import read_grammar, read_library
from handsfree.phrases.tree import Choice, Expansion, Null, Reference, Repeat, Sequence, Tagged, Void, Word
from handsfree.wiring import read_shipped, resources
from tests.phrases.oracle import read


def word(text: str) -> Word:
    return Word(text, tuple(text.casefold().split()))


A, B, C = word("a"), word("b"), word("c")


@pytest.mark.parametrize(
    ("written", "tree"),
    [
        ("a", A),
        ("a b", Sequence((A, B))),
        ("a | b c", Choice((A, Sequence((B, C))))),
        ("(a | b) c", Sequence((Choice((A, B)), C))),
        ("a b*", Sequence((A, Repeat(B, 0)))),
        ("(a b)+", Repeat(Sequence((A, B)), 1)),
        ("a b {t}", Sequence((A, Tagged(B, "t")))),
        ("(a b) {t}", Tagged(Sequence((A, B)), "t")),
        ("a* {t}", Tagged(Repeat(A, 0), "t")),
        ("a {t} {u}", Tagged(Tagged(A, "t"), "u")),
        ("a {t}*", Repeat(Tagged(A, "t"), 0)),
        ("a | b {t}", Choice((A, Tagged(B, "t")))),
        ("[a] b", Sequence((Choice((A, Null())), B))),
        ("/10/ a | /2.5/ b | /1e2/ c", Choice((A, B, C), (10.0, 2.5, 100.0))),
        ("/3f/ a | /.5/ (b c)", Choice((A, Sequence((B, C))), (3.0, 0.5))),
        ('"new york" a', Sequence((word("new york"), A))),
        (r'"say \"a\""', word('say "a"')),
        (r"a {shut \} and \\ open {}", Tagged(A, r"shut } and \ open {")),
        ("<NULL> | <VOID> a", Choice((Null(), Sequence((Void(), A))))),
        ("a // b\n b", Sequence((A, B))),
        ("a /* b * / */ b", Sequence((A, B))),
        ("it's twenty-five o'clock.", Sequence((word("it's"), word("twenty-five"), word("o'clock.")))),
        ("public grammar import", Sequence((word("public"), word("grammar"), word("import")))),
        ("Étape <b-2>", Sequence((word("Étape"), Reference("b-2")))),
        ("a{t}b|<c|d>", Choice((Sequence((Tagged(A, "t"), B)), Reference("c|d")))),
        ("a//b\r\n//c\r[b]", Sequence((A, Choice((B, Null()))))),
        (f"{'(' * 150}a{')' * 150}", A),
    ],
)
def test_precedence_and_notation(written: str, tree: Expansion) -> None:
    """Names and tokens bind tightest, then brackets, unary operators and tags, sequences, alternatives.

    JSpeech Grammar Format, W3C Note 5 June 2000, section 4 (from memory).
    """
    assert tree == parse(f"#JSGF V1.0;\ngrammar g;\n<r> = {written};", "g.jsgf").rules[0].body


@pytest.mark.parametrize("between", [" ", "\r\n", "\t\u00a0", " // “ { <a> = b;\r\n", '/* * / [ " */'])
@pytest.mark.parametrize("name", sorted(file.stem for file in resources().grammars.glob("*.jsgf")))
def test_blanks_and_comments_change_nothing(name: str, between: str) -> None:
    """They may stand between any two tokens.

    JSpeech Grammar Format, W3C Note 5 June 2000, section 2 on comments (from memory).
    """
    text = read_shipped(name)
    spread = between.join(lexeme.text for lexeme in lexemes(text))
    assert parse(text, name).rules == parse(spread, name).rules


@pytest.mark.parametrize(
    "header",
    ["#JSGF V1.0;", "#JSGF V1.0 UTF-8;", "#JSGF V1.0 ISO8859-5 en;", "\ufeff#JSGF V1.0;", "#JSGF V1.0 ;"],
)
def test_headers(header: str) -> None:
    """The header may name an encoding and a locale; grammar names have dots.

    JSpeech Grammar Format, W3C Note 5 June 2000, section 3 (from memory).
    """
    assert parse(f"{header}\ngrammar com.acme.g;", "g.jsgf").name == "com.acme.g"


@pytest.mark.parametrize(
    ("body", "sentences", "refused"),
    [
        ("public <c> = <a> | (<a> and <c>); <a> = stop | start;", ["stop", "start and stop"], ["stop and"]),
        (
            "public <x> = something | <y>; <y> = another thing <x>;",
            ["another thing something"],
            ["another thing"],
        ),
        ("public <x> = a [<x>];", ["a", "a a a"], ["", "b"]),
        ("public <x> = a (b <x> {t} | c);", ["a c", "a b a c"], ["a b"]),
        ("public <x> = <NULL>;", [""], ["a"]),
        ("public <x> = a | <VOID> b;", ["a"], ["b", ""]),
        ("public <x> = a | /0/ b;", ["a"], ["b"]),
        ("public <x> = a <x> | b; public <y> = c <y>;", ["a a b"], ["c", "c c"]),
        ("public <x> = ([a] {t})* b;", ["b", "a a b"], ["a"]),
        ("public <x> = Open The DOOR;", ["open the door"], ["open"]),
    ],
)
def test_what_can_be_said(body: str, sentences: list[str], refused: list[str]) -> None:
    """Right recursion, direct or nested, is read; what is void is never said.

    JSpeech Grammar Format, W3C Note 5 June 2000, section 4 on recursion and section 2 on <NULL> and <VOID>
    (from memory).
    """
    grammar = compile_grammar(read(body))
    assert sentences == [said for said in [*sentences, *refused] if grammar.match(tuple(said.split()))]


HEAD = "#JSGF V1.0;\ngrammar g;\n"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "g.jsgf:1:1: this is not a grammar file. Begin it with “#JSGF V1.0;”."),
        ("<a> = b;", "g.jsgf:1:1: this is not a grammar file."),
        ("#JSGF V2.0;\ngrammar g;", "g.jsgf:1:1: "),
        ("#JSGF V1.0;\n<a> = b;", "g.jsgf:2:1: “<a>” cannot stand here. Expected “grammar name;”."),
        ("#JSGF V1.0;\ngrammarg;", "g.jsgf:2:1: “grammarg” cannot stand here. Expected “grammar name;”."),
        ("#JSGF V1.0;\ngrammar 5g;", "g.jsgf:2:9: “5g” cannot stand here. Expected a name."),
        (f"{HEAD}public a = b;", "g.jsgf:3:8: “a” cannot stand here. Expected a <rule>."),
        (f"{HEAD}public <a> = b /2/ c;", "g.jsgf:3:16: “/2/” cannot stand here. Expected “;”."),
        (f"{HEAD}public <a> = [b) c;", "g.jsgf:3:16: “)” cannot stand here. Expected “]”."),
        (f'{HEAD}public <a> = "b\nc" {{t\nu}}\n  /* d\n */ );', "g.jsgf:7:5: “)” cannot stand here."),
        (f"{HEAD}public <a> = b /* c;", "g.jsgf:3:16: this is neither a comment nor a weight."),
        (f"{HEAD}public <a> = ;", "g.jsgf:3:14: “;” cannot stand here."),
        (f"{HEAD}public <a> = (b;", "g.jsgf:3:16: “;” cannot stand here. Expected “)”."),
        (f"{HEAD}public <a> = b", "g.jsgf:3:15: the end of the file cannot stand here."),
        (f"{HEAD}public <a> = b\n", "g.jsgf:4:1: the end of the file cannot stand here."),
        ("#JSGF V1.0;\r\ngrammar g;\r\n/* a\r\n*/ public <a> = );", "g.jsgf:4:17: “)” cannot stand here."),
        (f"{HEAD}public <NULL> = b;\n<a> = );", "g.jsgf:3:8: <NULL> is reserved"),
        (f"{HEAD}public <a> = b {{t;", "g.jsgf:3:16: this tag is not closed."),
        (f'{HEAD}public <a> = "b;', "g.jsgf:3:14: this quoted token is not closed."),
        (f'{HEAD}public <a> = "b\\" c;', "g.jsgf:3:14: this quoted token is not closed."),
        (f'{HEAD}public <a> = " ";', "g.jsgf:3:14: this quoted token is empty."),
        (f"{HEAD}public <a> = * b;", "g.jsgf:3:14: “*” cannot stand here."),
        (f"{HEAD}public <a> = b | ;", "g.jsgf:3:18: “;” cannot stand here."),
        (f"{HEAD}public <a b> = c;", "g.jsgf:3:8: this is not a rule name."),
        (f"{HEAD}public <NULL> = c;", "g.jsgf:3:8: <NULL> is reserved"),
        (f"{HEAD}public <x.y> = c;", "g.jsgf:3:8: <x.y> cannot be defined: its name has a dot."),
        (f"{HEAD}public <a> = <b.*>;", "g.jsgf:3:14: <b.*> is not one rule."),
        (f"{HEAD}public <a> = b \\ c;", "g.jsgf:3:16: a backslash"),
        (f"{HEAD}public <a> = b / c;", "g.jsgf:3:16: this is neither a comment nor a weight."),
        (f"{HEAD}import <a>;", "g.jsgf:3:8: import <a> names no grammar."),
        (f"{HEAD}<a> = b;", "g.jsgf:1: this grammar has no public rule."),
        (f"{HEAD}public <apple> = <appel>;", "g.jsgf:3:18: <appel> is not defined. Did you mean <apple>?"),
        (f"{HEAD}public <a> = b;\n<a> = c;", "g.jsgf:4:1: <a> is defined twice, first in line 3."),
        (f"{HEAD}import <no.such.thing>;\npublic <a> = b;", "g.jsgf:3:8: there is no grammar no.such."),
        (f"{HEAD}import <b.hidden>;\npublic <a> = c;", "g.jsgf:3:8: b.jsgf has no public rule <hidden>."),
        (
            f"{HEAD}import <wrong.x>;\npublic <a> = c;",
            "g.jsgf:3:8: wrong.jsgf calls itself other, not wrong.",
        ),
        (f"{HEAD}import <b.*>;\npublic <a> = <hidden>;", "g.jsgf:4:14: <hidden> is not defined."),
        (
            f"{HEAD}import <b.*>; import <c.*>;\npublic <a> = <seen>;",
            "g.jsgf:4:14: <seen> can mean more than one",
        ),
        (f"{HEAD}import <broken.x>;\npublic <a> = c;", "broken.jsgf:1:1: this is not a grammar file."),
        (f"{HEAD}public <a> = <a> b | c;", "g.jsgf:3:14: <a> comes back to <a> before its end."),
        (f"{HEAD}public <a> = b <a> c | c;", "g.jsgf:3:16: <a> comes back to <a> before its end."),
        (f"{HEAD}public <a> = b <a>* | c;", "g.jsgf:3:16: <a> comes back to <a> before its end."),
        (f"{HEAD}public <a> = <c> b;\n<c> = d <a>;", "g.jsgf:3:14: <c> comes back to <a> before its end."),
        (f"{HEAD}public <a> = <a>;", "g.jsgf:3:8: <a> comes back to itself without a word before."),
        (f"{HEAD}public <a> = [b] <a> | c;", "g.jsgf:3:8: <a> comes back to itself without a word before."),
    ],
)
def test_refusals(text: str, said: str) -> None:
    """What is wrong is said in one line with file, line, column and the next step."""
    with pytest.raises(GrammarError) as refusal:
        read_grammar(text, "g.jsgf", OTHERS.__getitem__)
    assert str(refusal.value).startswith(said)
    assert "\n" not in str(refusal.value)
    assert refusal.value.next_step


OTHERS = {
    "b": "#JSGF V1.0;\ngrammar b;\npublic <seen> = one; <hidden> = two;\npublic <both> = <seen> <hidden>;",
    "c": "#JSGF V1.0;\ngrammar c;\nimport <b.both>;\npublic <seen> = three; public <more> = <both> four;",
    "wrong": "#JSGF V1.0;\ngrammar other;\npublic <x> = a;",
    "broken": "not a grammar",
    "round": "#JSGF V1.0;\ngrammar round;\nimport <trip.x>;\npublic <y> = back <x>;",
    "trip": "#JSGF V1.0;\ngrammar trip;\nimport <round.y>;\npublic <x> = there <y> | home;",
}


@pytest.mark.parametrize(
    ("body", "sentence"),
    [
        ("import <b.seen>;\npublic <a> = <seen>;", "one"),
        ("import <b.*>;\npublic <a> = <both>;", "one two"),
        ("import <c.*>;\npublic <a> = <more>;", "one two four"),
        ("import <b.*>; import <c.*>;\npublic <a> = <c.seen> <b.seen>;", "three one"),
        ("public <a> = <b.seen>;", "one"),
        ("import <b.*>;\npublic <a> = <seen>; <seen> = mine;", "mine"),
        ("public <a> = <g.seen> <b.seen>; <seen> = mine;", "mine one"),
        ("import <trip.*>;\npublic <a> = <x>;", "there back there back home"),
    ],
)
def test_imports(body: str, sentence: str) -> None:
    """Imported rules go by short, qualified or full name; local ones go first; a full name needs no import.

    JSpeech Grammar Format, W3C Note 5 June 2000, section 3 on imports (from memory).
    """
    grammar = compile_grammar(read_grammar(HEAD + body, "g.jsgf", OTHERS.__getitem__))
    assert grammar.match(tuple(sentence.split()))


def test_a_library_has_the_public_rules_of_all_its_grammars() -> None:
    """Several files are one set of rules; a file that is not there is named."""
    library = read_library(["c", "b"], OTHERS.__getitem__)
    assert library.public == ("c.seen", "c.more", "b.seen", "b.both")
    with pytest.raises(GrammarError, match="there is no grammar d"):
        read_library(["d"], OTHERS.__getitem__)
