"""What is written at the first run, and of a microphone that was tried. Pure."""

from __future__ import annotations

from types import MappingProxyType

from handsfree.trial import Flaw, Trial
from handsfree.words import worded

WELCOME = worded("""\
The first run on this machine: a few questions, asked once.

A training and memory aid. Not a medical device, and not an alarm. Local protocol, orders and licensed
practice decide. It can mishear: check every number independently.
""")

SMALL_EAR = worded("""\
The ear here is PocketSphinx, for quiet rooms alone. Vosk hears much better; its model is 41 MB, and
is fetched once, now or later by: handsfree model get""")

FETCH_NOW = worded("Fetch it now?")

SAY = worded("Say, as loud as you would at work: “{sentence}”")

TRY_AGAIN = worded("Try again?")

HEADSET = worded("Do you wear a headset, so that the microphone does not hear the program speak?")

KEPT = worded("""\
Kept in {file}, to be changed there; an option on the command line goes before it.
Try the microphone again at any time: handsfree check
""")

BEGINS = worded("""\
The session begins, and is spoken; with --screen it is shown too. Answer once it has finished speaking.
Say “help” for what can be said now, “stop” for silence, “end session” to finish.
Ctrl-C breaks it off; handsfree resume goes on.
""")

NOT_KEPT = worded("The answers cannot be kept ({why}): they hold for this session, and are asked again.")

_SCALE = worded("full scale is 0, speech lies about -25, a room below -50")

_FLAWS = MappingProxyType(
    {
        Flaw.DEAD: worded("The microphone gives no sound at all. See that it is on, and not muted."),
        Flaw.SILENT: worded(
            "No speech was heard. Speak after the prompt; see that it is the right microphone."
        ),
        Flaw.FAINT: worded("The microphone is weak. Come nearer, or turn it up in the system's settings."),
        Flaw.CLIPPED: worded("The sound is clipped. Move away, or turn it down in the system's settings."),
        Flaw.NOISY: worded(
            "The room is nearly as loud as you. Come nearer to the microphone, or take a headset."
        ),
        Flaw.UNCLEAR: worded("The words were not understood. Say just these, at your usual pace."),
    }
)


def wrong(flaw: Flaw) -> str:
    """What is wrong, and what to do about it."""
    return _FLAWS[flaw]


def heard(loudest_db: float) -> str:
    """What a microphone gives to which nobody was asked to speak."""
    return f"{worded('hears {loudest_db:.0f} dB', loudest_db=loudest_db)}; {_SCALE}"


def tried(trial: Trial) -> str:
    """What came of one sentence."""
    understood = worded("understood nothing")
    if trial.understood:
        understood = worded("understood “{words}”", words=trial.understood)
    levels_db = {"speech_db": trial.speech_db, "room_db": trial.room_db}
    loud = worded("speech {speech_db:.0f} dB, room {room_db:.0f} dB", **levels_db)
    return f"{understood}; {loud}; {_SCALE}"
