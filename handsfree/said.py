"""From a sentence that was heard to the command, with the moment at which its words ended."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta

from handsfree.care.commands import Answer, Say
from handsfree.care.rules import QUESTIONS
from handsfree.phrases.judge import judge
from handsfree.phrases.match import spans
from handsfree.phrases.readings import by_reading, led_by, reading
from handsfree.phrases.spotting import VALUE_SURE, Spotted
from handsfree.phrases.twins import with_twin
from handsfree.ports import Sentences
from handsfree.signals import REPORT, Heard, Outcome, Utterance

_NOT_READ_BACK = (*QUESTIONS, "completion")
"""Commands with numbers that are answered at once."""

_OPEN_ENDED = ("remind",)
"""What one wants to be reminded of can be anything, and is kept as sound."""


def judged(sentences: Sentences, utterance: Utterance) -> Outcome:
    """What was said. Where no read-back follows, a number that sounds like another is in doubt."""
    outcome = judge(sentences, utterance, means=by_reading)
    if isinstance(outcome, Heard) and led_by(outcome.node)[1].rule in _NOT_READ_BACK:
        return with_twin(outcome, sentences, utterance.alternatives)
    return outcome


def understood(heard: Heard, utterance: Utterance, at: datetime) -> Say:
    """The command of a sentence. at: when its utterance was decided."""
    line, node = led_by(heard.node)
    text, ends_ago_s = " ".join(heard.node.words), tuple(_ends_ago_s(heard, utterance))
    said_at = at - timedelta(seconds=utterance.decided_s - utterance.end_s)
    answers: tuple[Answer, ...] = ()
    if node.rule == REPORT:
        answers = tuple(
            Answer(child.rule, reading(child), " ".join(child.words), at - timedelta(seconds=ago_s))
            for child, ago_s in zip(node.children, ends_ago_s[-len(node.children) :], strict=True)
        )
    reason = "" if answers else reading(node)
    return Say(node.rule, text, answers, reason, heard.confidence, said_at, line)


def begun(sentences: Sentences, utterance: Utterance, at: datetime) -> Say | None:
    """The command with which an utterance begins that may end in words of no grammar; None where it has none.

    How sure it is was not weighed. at: when the utterance was decided.
    """
    words = utterance.alternatives[0].words
    for count in range(len(words) - 1, 0, -1):
        for node in sentences.match(words[:count]):
            if led_by(node)[1].rule in _OPEN_ENDED:
                return replace(understood(Heard(node, 0.0), utterance, at), text=" ".join(words))
    return None


def spotted_answers(found: tuple[Spotted, ...], utterance: Utterance, at: datetime) -> Say:
    """The command of answers in the midst of other words. at: when their utterance was decided.

    A value that was not heard for sure is left empty.
    """
    answers = tuple(
        Answer(
            one.node.rule,
            reading(one.node) if one.value_sure >= VALUE_SURE else "",
            " ".join(one.node.words),
            at
            - timedelta(seconds=utterance.decided_s - (utterance.end_s if one.end_s is None else one.end_s)),
            one.also,
        )
        for one in found
    )
    text = " ".join(utterance.alternatives[0].words)
    return Say(REPORT, text, answers, confidence=min(one.sure for one in found))


def _ends_ago_s(heard: Heard, utterance: Utterance) -> Iterator[float]:
    """How long before the decision each part of a sentence ended, in seconds; the last one with the speech.

    A recogniser's words may be more or fewer than the grammar's: then they are taken to be of equal length.
    """
    ends_s, count = heard.ends_s, len(heard.node.words)
    for span in spans(heard.node):
        nth = round(span.stop * len(ends_s) / count)
        last = span.stop == count or not nth
        yield utterance.decided_s - (utterance.end_s if last else min(ends_s[nth - 1], utterance.end_s))
