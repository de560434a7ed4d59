"""How compiling grows with the grammar. Run: python -m pytest tests/bench/bench_grammar.py -s

Prints a ratio, because it means the same on every machine: the time to compile a grammar of ten million
sentences, cover it for Vosk and match a sentence, over the time of the same for one of ten thousand.
"""

from __future__ import annotations

from time import perf_counter

from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.link import no_imports, read_grammar

DIGIT = "<d> = zero | one | two | three | four | five | six | seven | eight | nine;"


def _seconds(digits: int) -> float:
    text = f"#JSGF V1.0;\ngrammar g;\npublic <number> = {'<d> ' * digits};\n{DIGIT}"
    began = perf_counter()
    for _ in range(20):
        grammar = compile_grammar(read_grammar(text, "g.jsgf", no_imports))
        assert grammar.phrases()
        assert grammar.match(("five",) * digits)
    return perf_counter() - began


def test_ten_million_sentences_against_ten_thousand() -> None:
    """A thousand times as many sentences take less than five times as long."""
    _seconds(4)
    ratio = _seconds(7) / _seconds(4)
    print(f"ten million sentences over ten thousand: {ratio:.2f}")
    assert ratio < 5
