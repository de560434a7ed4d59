"""The kept sound of a session, heard again: with another ear, or for what another grammar lets people say."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import assert_never

from handsfree.cli.hear_lines import Said
from handsfree.cli.hearing import Hearing
from handsfree.cli.progress import Progress
from handsfree.debrief import place_of, runs_from
from handsfree.errors import SoundError
from handsfree.hear.recording import Recording
from handsfree.lexicon import Lexicon
from handsfree.phrases.grammar import Grammar
from handsfree.ports import Ear
from handsfree.record import Kept
from handsfree.show.captions import PROGRAM
from handsfree.show.debrief.run import Run
from handsfree.show.debrief.tracks import along
from handsfree.signals import Ambiguous, Heard, Listen, NotUnderstood
from handsfree.webvtt import Cue
from handsfree.wiring import best_ear, make_ear, read_shipped, sounds
from handsfree.words import worded

AGAIN = worded("Heard again")


@dataclass(frozen=True, slots=True)
class Rehearing:
    """With what to hear. ear: empty for the best that is there. grammar: None for the session's own."""

    ear: str = ""
    grammar: Path | None = None

    def runs(self, kept: Kept, folder: Path, progress: Progress) -> tuple[Run, ...]:
        """The runs of a session, with what is heard now in place of what was heard then.

        Marks and score stay as they were. Raises GrammarError, UnknownWord, ModelError.
        """
        name = self.ear or best_ear()
        ear = make_ear(name)
        if self.grammar is None:
            hearing = Hearing(ear, whole_grammar(kept, ear))
        else:
            hearing = Hearing.with_grammar(name, self.grammar)
        runs = tuple(runs_from(kept))
        files = dict.fromkeys(sound.file for run in runs for sound in run.sounds if sound.anchors)
        heard = {file: tuple(_said(hearing, folder, file, progress)) for file in files}
        words = self.grammar.name if self.grammar else worded("the words of the session")
        notice = worded(
            "Heard again with {name}, for {words}: marks and score are what they were.",
            name=name,
            words=words,
        )
        return tuple(
            replace(run, captions=_captions(run, heard), notices=(*run.notices, notice)) for run in runs
        )


def whole_grammar(kept: Kept, ear: Ear) -> Grammar:
    """What could be said at any time of a session, in one grammar for an ear."""
    conduct, checklist = kept.conduct, kept.session.checklist
    session = conduct.new(checklist, kept.started, kept.records[0].at)
    lexicon = Lexicon(conduct.vocabulary(session), read_shipped, ear.knows, sounds())
    rules: dict[str, None] = {}
    answers: dict[str, None] = {}
    for record in kept.records:
        with suppress(LookupError):  # what refers to a row that is lost changes nothing
            session = conduct.evolve(session, record.event, record.at)
        now = conduct.listen(session, False)
        if now.grammar in ("", checklist.name):
            rules |= dict.fromkeys(now.rules)
            answers |= dict.fromkeys(now.answers)
    return lexicon.grammar(Listen(tuple(rules), tuple(answers)))


def _said(hearing: Hearing, folder: Path, file: str, progress: Progress) -> Iterator[Said]:
    """What is heard in a file, as far as it can be read; the page says which can't."""
    with suppress(SoundError, OSError):
        place = place_of(folder, file)
        length_s = Recording(place, whole=False).length_s
        for said in hearing.said_in(place, whole=False):
            progress(said.utterance.decided_s, length_s)
            yield said


def _captions(run: Run, heard: Mapping[str, tuple[Said, ...]]) -> tuple[Cue, ...]:
    """What the program said, and what is heard now during the run, in order of time."""
    kept = [cue for cue in run.captions if cue.speaker == PROGRAM]
    for sound in run.sounds:
        for said in heard.get(sound.file, ()):
            start_s, end_s = (
                along(sound.anchors, time_s) for time_s in (said.utterance.start_s, said.utterance.end_s)
            )
            if _words(said) and 0 <= start_s <= run.length_s:
                kept.append(Cue(round(1000 * start_s), round(1000 * end_s), _words(said), AGAIN))
    return tuple(sorted(kept, key=lambda cue: cue.start_ms))


def _words(said: Said) -> str:
    match said.outcome:
        case Heard() as heard:
            return heard.text
        case NotUnderstood(text):
            return f"({text})" if text else ""
        case Ambiguous(candidates=candidates):
            return f"{worded(' or ').join(one.text for one in candidates)}?"
        case other:
            assert_never(other)
