"""The manifest tells the truth about the recordings."""

from __future__ import annotations

import hashlib

import pytest

from tests.voice.manifest import FIXTURES, below, manifest
from tests.voice.moments import checklist, compiled, of_all, of_clip, of_phase

MOST_BYTES = 12_000_000


def test_every_file_is_listed_once() -> None:
    """What lies there stands in the manifest, and the other way round."""
    there = {file.relative_to(FIXTURES).as_posix() for file in FIXTURES.rglob("*.ogg")}
    listed = [one.file for one in manifest()]
    assert there == set(listed)
    assert len(listed) == len(set(listed))


def test_checksums() -> None:
    """No recording was changed after its row was written."""
    assert [] == [
        one.file for one in manifest() if hashlib.sha256(one.path.read_bytes()).hexdigest() != one.sha256
    ]


def test_enough_of_each() -> None:
    """Many utterances, voices and synthesisers; refusals that say why; a licence for each; small in all."""
    spoken = [one for one in below("utterances") if one.kind == "in_grammar"]
    refusals = [one for one in below("utterances") if one.kind == "oov"]
    assert len(spoken) >= 120
    assert len({one.voice for one in spoken}) >= 5
    assert len({one.synthesiser for one in spoken}) >= 3
    assert len(refusals) >= 30
    assert all(one.why for one in refusals)
    assert all(one.licence for one in manifest())
    assert sum(one.path.stat().st_size for one in manifest()) < MOST_BYTES


def test_names_are_the_words() -> None:
    """An utterance is named by its words and its voice, a refusal begins with oov_."""
    for one in below("utterances"):
        words, _, voice = one.path.stem.partition("__")
        assert one.voice == voice
        assert words.startswith("oov_") if one.kind == "oov" else words == one.words.replace(" ", "_")


def test_utterances_are_sentences_and_refusals_are_not() -> None:
    """With every phase open at once, each utterance can be said, and no refusal."""
    grammar = compiled(of_all())
    assert [] == [
        one.file
        for one in below("utterances")
        if bool(one.words and grammar.match(tuple(one.words.split()))) != (one.kind == "in_grammar")
    ]


@pytest.mark.parametrize(("session", "branch"), [("aid_station", "infusion"), ("lock_only", "lock")])
def test_sessions_are_whole(session: str, branch: str) -> None:
    """A clip for each question of the branch, and each is an answer when it is asked."""
    clips = {one.path.stem: one.words for one in below(f"sessions/{session}")}
    asked = {step.name for step in checklist().steps if step.branch in ("", branch)} | {"order_fluid"}
    assert asked | {"correct", "end", "end_it"} == set(clips)
    for name, words in clips.items():
        listen = of_phase("order") if words == "lock only" else of_clip(name)
        assert compiled(listen).match(tuple(words.split())), f"{name}: {words}"
