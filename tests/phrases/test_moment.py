"""What may be said now, and what help says about it."""

from __future__ import annotations

import pytest

from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.help import examples
from handsfree.phrases.match import parts
from handsfree.phrases.moment import moment
from handsfree.signals import Listen
from handsfree.testing.disjoint import ambiguity, overlap, shared
from tests.phrases.oracle import read

LIBRARY = read("""
    public <next> = [please] (next | go on);
    public <gloved> = [i'm] gloved [up];
    public <set> = (ten | fifteen) set;
    public <gauge> = green [eighteen] {18} | pink {20};
    public <stop> = stop;
""")


def heard(listen: Listen, call_word: str = "") -> Grammar:
    return compile_grammar(moment(LIBRARY, listen, call_word))


@pytest.mark.parametrize(
    ("said", "rules"),
    [
        ("next", ["next"]),
        ("gloved", ["report", "gloved"]),
        ("gloved fifteen set green eighteen", ["report", "gloved", "set", "gauge"]),
        ("gloved and fifteen set then pink", ["report", "gloved", "set", "gauge"]),
        ("pink pink", ["report", "gauge", "gauge"]),
        ("gloved next", []),
        ("and gloved", []),
        ("gloved and", []),
        ("next stop", []),
        ("stop", []),
        ("", []),
    ],
)
def test_several_answers_in_one_breath(said: str, rules: list[str]) -> None:
    """Answers go together, with or without “and” or “then”; other rules stand alone."""
    readings = heard(Listen(("next", "gloved"), ("gloved", "set", "gauge"))).match(tuple(said.split()))
    assert rules == [
        rule for node in readings for rule in (node.rule, *(child.rule for child in node.children))
    ]


def test_a_moment_means_one_thing() -> None:
    """A rule that is an answer too is heard as an answer only."""
    assert ambiguity(heard(Listen(("next", "gloved", "stop"), ("gloved", "set", "gauge")))) is None


@pytest.mark.parametrize(
    ("said", "is_heard"), [("medic next", True), ("next", False), ("medic pink", True), ("medic", False)]
)
def test_call_word(said: str, is_heard: bool) -> None:
    """With a call word every sentence begins with it."""
    grammar = heard(Listen(("next",), ("gauge",)), "Medic")
    assert is_heard == bool(grammar.match(tuple(said.split())))
    assert grammar.public == ("next", "report")


def test_a_rule_that_is_not_there() -> None:
    """A name that the library lacks is an error of the caller."""
    with pytest.raises(KeyError, match="sing"):
        heard(Listen(("sing",)))


def test_parts() -> None:
    """Each rule used goes to its words, a list where it was used twice; what matched nothing is left out."""
    grammar = compile_grammar(
        read("public <a> = <b> <b> [<c>] <d>; <b> = x | y; <c> = z; <d> = [w] <e>; <e> = v;")
    )
    (node,) = grammar.match(("x", "y", "v"))
    assert parts(node) == {"a": "x y v", "b": ["x", "y"], "d": "v", "e": "v"}
    grammar = compile_grammar(read("public <a> = x <b>; <b> = [y];"))
    assert parts(grammar.match(("x",))[0]) == {"a": "x"}


def test_a_star_does_not_explode() -> None:
    """Many words, each read in two ways, take no longer than their number."""
    grammar = compile_grammar(
        read("public <a> = (x {one} | x {two} | x)*; public <b> = (<c> | <d>)*; <c> = x; <d> = x;")
    )
    assert 1 < len(grammar.match(("x",) * 300)) <= 32


def test_disjoint() -> None:
    """Rules that share a sentence are found, with the sentence."""
    rules = read("public <a> = [very] good | fine; public <b> = bad | very [very] good; public <c> = so so;")
    grammar = compile_grammar(rules)
    assert shared(grammar, "a", "c") is None
    for witness in (shared(grammar, "b", "a"), overlap(grammar), ambiguity(grammar)):
        assert witness
        assert witness.sentence == ("very", "good")
        assert {"a", "b"} == {node.rule for node in witness.readings}


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ("public <a> = [please] next | go on;", {"a": "next"}),
        ("public <a> = very* good+;", {"a": "good"}),
        ("public <a> = /1/ rare | /9/ common;", {"a": "common"}),
        ("public <a> = <VOID> | x <a> | Ringer's {t};", {"a": "Ringer's"}),
        ("public <a> = <b> mils; <b> = one | two;", {"a": "one mils"}),
        ("public <a> = [x]; public <b> = y;", {"b": "y"}),
    ],
)
def test_spoken_help(body: str, said: dict[str, str]) -> None:
    """One short sentence a rule, in the grammar's own spelling."""
    assert said == examples(read(body))


def test_each_example_can_be_said() -> None:
    """It is a sentence of its grammar."""
    grammar = compile_grammar(LIBRARY)
    assert all(grammar.match(tuple(said.split())) for said in examples(LIBRARY).values())
