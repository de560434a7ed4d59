"""What the shipped checklist lets people say: one meaning for each sentence, and a value for each number."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from handsfree.care.choices import Choice
from handsfree.care.commands import Say
from handsfree.care.events import RateComputed
from handsfree.care.flow_by_ear import Window
from handsfree.care.listening import listen
from handsfree.care.questions.question import Asked
from handsfree.care.questions.replies import ASKED
from handsfree.care.reminders.bag import Bag
from handsfree.care.reminders.reminder import CLOCKS, Reminder
from handsfree.care.rules import Mode
from handsfree.care.session import Proposal, Session
from handsfree.care.values import KINDS
from handsfree.phrases.judge import judge
from handsfree.phrases.readings import by_reading, reading
from handsfree.signals import Alternative, Ambiguous, Listen, Utterance
from handsfree.testing.dialogue import START
from handsfree.testing.disjoint import ambiguity, overlap
from tests.dialogues import lexicon, shipped

PHASES = tuple(
    tuple(step.name for step in shipped().steps if step.phase == phase.name) for phase in shipped().phases
)
"""Steps by phase."""

FIFTEEN_OR_FIFTY = tuple(Say("just_drop_factor", "", reason=number) for number in ("15", "50"))


RUNNING = Session(
    shipped(),
    START,
    since=dict.fromkeys(CLOCKS, START),
    bag=Bag(Fraction(1000), Fraction(1000), START, Fraction(125)),
    reminders=(Reminder("own", START, START, said=1),),
    rate=RateComputed(Fraction(1000), Fraction(480), Fraction(125), Fraction(20), Fraction(125, 3)),
    beat=Fraction(42),
)
"""A line that runs, and a reminder that waits: all that can be open is."""


def moment(step: str, mode: Mode = Mode.WALKING) -> Listen:
    """What may be said at a step."""
    proposal = Proposal({}, START, asked=True) if mode is Mode.CONFIRMING else None
    choice = Choice(FIFTEEN_OR_FIFTY, START) if mode is Mode.CHOOSING else None
    return replace(listen(replace(RUNNING, step=step, mode=mode, proposal=proposal, choice=choice)), asks="")


MOMENTS = (
    *dict.fromkeys(
        moment(step.name, mode) for mode in Mode if mode is not Mode.OVER for step in shipped().steps
    ),
    listen(replace(RUNNING, step="gauge", window=Window(30, START, over=True))),
)
"""Every moment of a session, each once."""

PLAIN = tuple(
    dict.fromkeys(
        replace(one, rules=tuple(rule for rule in one.rules if rule not in ASKED)) for one in MOMENTS
    )
)
"""The same without questions, in which a number may follow another, and which are many."""


def read(step: str, said: str, mode: Mode = Mode.WALKING) -> list[tuple[str, str]]:
    """Rule and value of each part of a sentence, by its first reading; empty where it is refused."""
    for node in lexicon().grammar(moment(step, mode)).match(tuple(said.split())):
        parts = node.children if node.rule == "report" else (node,)
        return [(part.rule, reading(part)) for part in parts]
    return []


@pytest.mark.parametrize("listen", PLAIN, ids=range(len(PLAIN)))
def test_no_sentence_is_two_commands(listen: Listen) -> None:
    """At each moment the rules that can be said are disjoint, and each answer has one reading."""
    assert overlap(lexicon().grammar(listen)) is None
    alone = replace(listen, rules=(*listen.rules, *listen.answers), answers=())
    assert ambiguity(lexicon().grammar(alone)) is None


@pytest.mark.parametrize("step", [phase[0] for phase in PHASES], ids=str)
def test_no_question_is_a_command(step: str) -> None:
    """In each phase, with a question asked before: a volume that answers a step is no question, nor is a
    follow-up, and no question is anything else."""
    session = Session(shipped(), START, step=step, asked=Asked("flow; rate=75 mL/h", answered=True))
    assert overlap(lexicon().grammar(replace(listen(session), asks=""))) is None


@pytest.mark.parametrize("listen", PLAIN, ids=range(len(PLAIN)))
def test_two_numbers_in_a_row_are_asked_about(listen: Listen) -> None:
    """A report that parts in two ways with other values ("orange twenty one set") is never acted on."""
    grammar = lexicon().grammar(listen)
    witness = ambiguity(grammar)
    if witness is not None and len({by_reading(node) for node in witness.readings}) > 1:
        outcome = judge(grammar, Utterance((Alternative(witness.sentence),)), means=by_reading)
        assert isinstance(outcome, Ambiguous)


@pytest.mark.parametrize(
    ("step", "said", "meant"),
    [
        (
            "order_fluid",
            "a litre of saline over eight",
            "volume 1000, fluid sodium chloride 0.9 %, infusion_time 480",
        ),
        ("order_fluid", "lock only", "lock_only "),
        ("patient", "tag twelve", "identity tag 12"),
        ("patient", "tag number one oh five", "identity tag 105"),
        ("patient", "name and date of birth match", "identity two identifiers"),
        ("allergies", "avoid the left", "limb left"),
        ("allergies", "neither arm", "limb none"),
        ("allergies", "no known allergies", "allergies none"),
        ("allergies", "she is allergic to latex and tape", "allergies latex, tape"),
        ("allergies", "a latex allergy", "allergies latex"),
        ("order_volume", "one litre", "volume 1000"),
        ("order_volume", "a liter and a half", "volume 1500"),
        ("order_volume", "two hundred and fifty mils", "volume 250"),
        ("order_volume", "five hundred milliliters", "volume 500"),
        ("order_volume", "five hundred", "just_volume 500"),
        ("order_speed", "over eight", "infusion_time 480"),
        ("order_speed", "over six hours and thirty minutes", "infusion_time 390"),
        ("order_speed", "over half an hour", "infusion_time 30"),
        ("order_speed", "over ninety minutes", "infusion_time 90"),
        ("order_speed", "eight hours", "just_infusion_time 480"),
        ("order_speed", "one hundred twenty five millilitres an hour", "rate 125"),
        ("order_speed", "run it at eighty three point five mils per hour", "rate 167/2"),
        ("order_fluid", "ringer's lactate", "fluid compound sodium lactate"),
        ("order_fluid", "hartmann's", "fluid compound sodium lactate"),
        ("order_fluid", "dextrose five percent", "fluid glucose 5 %"),
        ("order_fluid", "potassium chloride", "fluid potassium"),
        ("consent", "the patient agrees", "consent "),
        ("hands", "gloved", "hands "),
        ("hands", "green eighteen", "gauge 18"),
        ("hands", "grey", "gauge 16"),
        ("hands", "gray one", "gauge 16"),
        ("hands", "green twenty", "gauge 18/20"),
        ("hands", "twenty two gauge", "gauge 22"),
        ("gauge", "eighteen", "just_gauge 18"),
        ("hands", "fifteen set", "drop_factor 15"),
        ("hands", "fifty set", "drop_factor 50"),
        ("hands", "sixty drops per millilitre", "drop_factor 60"),
        ("drop_factor", "twenty", "just_drop_factor 20"),
        ("hands", "sharps open", "sharps_box "),
        ("hands", "sharps container is open within reach", "sharps_box "),
        ("hands", "gloved fifteen set green eighteen", "hands , drop_factor 15, gauge 18"),
        ("hands", "povidone iodine", "antiseptic iodine"),
        ("hands", "chlorhexidine in alcohol", "antiseptic chlorhexidine"),
        ("bag_fluid", "normal saline", "bag_fluid sodium chloride 0.9 %"),
        ("bag_fluid", "the bag says sodium chloride point nine per cent", "bag_fluid sodium chloride 0.9 %"),
        ("bag_fluid", "half normal saline", "bag_fluid sodium chloride 0.45 %"),
        ("bag_fluid", "expires march twenty twenty eight", "expiry 2028-03"),
        ("bag_fluid", "use by the third of march two thousand and thirty one", "expiry 2031-03-03"),
        ("bag_fluid", "march third twenty thirty one", "expiry 2031-03-03"),
        ("bag_fluid", "the end of may twenty oh nine", "expiry 2009-05"),
        ("bag_fluid", "it's clear", "clear "),
        ("bag_fluid", "wrong bag", "wrong_bag "),
        ("bag_fluid", "no additives", "additive "),
        ("clamp_shut", "clamp's shut", "clamp_shut "),
        ("clamp_shut", "the clamp is closed", "clamp_shut "),
        ("clamp_shut", "spiked", "spiked "),
        ("clamp_shut", "half full", "chamber "),
        ("clamp_shut", "bubbles", "bubbles "),
        ("site", "tourniquet's on", "tie "),
        ("site", "left forearm", "site left forearm"),
        ("site", "back of the right hand", "site right hand"),
        ("site", "left antecubital fossa", "site left elbow crease"),
        ("site", "scrubbing", "scrub "),
        ("site", "it's dry", "dry "),
        ("site", "touched it", "touched "),
        ("needle", "sharp scratch", "needle "),
        ("needle", "flash", "flash "),
        ("needle", "no flash", "failed "),
        ("needle", "tourniquet off", "untie_first "),
        ("needle", "tourniquet on", "tie "),
        ("needle", "needle's away", "needle_away "),
        ("needle", "it's blown", "failed "),
        ("draws_back", "draws back", "draws_back "),
        ("draws_back", "flushes easy", "flushes "),
        ("draws_back", "it's swelling", "unsafe_flush "),
        ("draws_back", "in the second time", "attempts 2"),
        ("clamp_open", "clamp open", "clamp_open "),
        ("clamp_open", "it's dripping", "clamp_open "),
        ("clamp_open", "eight in fifteen", "count 8/15"),
        ("clamp_open", "forty two in a minute", "count 42/60"),
        ("clamp_open", "twenty one drops in thirty seconds", "count 21/30"),
        ("clamp_open", "too fast", "off_rate "),
        ("clamp_open", "not running", "not_running "),
        ("site_fine", "site's fine", "site_fine "),
        ("site_fine", "bit red", "site_trouble "),
        ("hands", "say again", "repeat "),
        ("hands", "hang on", "stop "),
        ("hands", "scrub that", "undo "),
        ("hands", "already done", "next "),
    ],
)
def test_what_people_say(step: str, said: str, meant: str) -> None:
    """At a step, a sentence means these rules with these values."""
    assert meant == ", ".join(f"{rule} {value}" for rule, value in read(step, said))


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ("hands", "fifteen"),
        ("gauge", "fifteen"),
        ("order_fluid", "five hundred"),
        ("order_volume", "eight hours"),
        ("hands", "correct"),
        ("hands", "yes"),
        ("hands", "no"),
        ("hands", "flush"),
        ("needle", "flushed"),
        ("needle", "tourniquet"),
        ("needle", "needle"),
        ("clamp_shut", "clamp"),
        ("clamp_shut", "clamp open"),
        ("order_speed", "wide open"),
        ("order_speed", "hundred millilitres an hour"),
        ("bag_fluid", "saline"),
        ("bag_fluid", "expires twenty twenty eight"),
        ("bag_fluid", "march"),
        ("hands", "tag twelve"),
        ("hands", "clear"),
        ("site", "left"),
        ("draws_back", "blood"),
        ("clamp_open", "eight in twenty"),
        ("clamp_open", "eight"),
        ("hands", "eighteen"),
        ("hands", "end it now"),
        ("hands", "carry on"),
        ("hands", "gloved next"),
    ],
)
def test_what_is_refused(step: str, said: str) -> None:
    """A bare number outside its question, half a sentence, or words of another moment mean nothing."""
    assert read(step, said) == []


@pytest.mark.parametrize(
    ("mode", "said", "meant"),
    [
        (Mode.CONFIRMING, "correct", [("correct", "")]),
        (Mode.CONFIRMING, "yes that's correct", [("correct", "")]),
        (Mode.CONFIRMING, "incorrect", [("wrong", "")]),
        (Mode.CONFIRMING, "not correct", [("wrong", "")]),
        (Mode.CONFIRMING, "no that's wrong", [("wrong", "")]),
        (Mode.CONFIRMING, "yes", []),
        (Mode.CONFIRMING, "next", []),
        (Mode.STOPPED, "go on anyway because no time", [("override", "no time")]),
        (Mode.STOPPED, "new order", [("new_order", "")]),
        (Mode.STOPPED, "next", []),
        (Mode.WALKING, "keep the vein open", [("keep_open", "")]),
        (Mode.REASONING, "we have none", [("reason", "not available")]),
        (Mode.ENDING, "yes end it", [("end_it", "")]),
        (Mode.ENDING, "correct", []),
        (Mode.HELD, "carry on", [("carry_on", "")]),
        (Mode.HELD, "gloved", []),
        (Mode.ASLEEP, "listen again", [("listen", "")]),
        (Mode.ASLEEP, "stop", []),
    ],
)
def test_what_a_mode_hears(mode: Mode, said: str, meant: list[tuple[str, str]]) -> None:
    """A mode hears its own words and no others."""
    assert meant == read("hands", said, mode)


LARGE = {
    "antiseptic",
    "allergies",
    "drop_factor",
    "volume",
    "rate",
    "identity",
    "count",
    "just_volume",
    "infusion_time",
    "just_infusion_time",
    "expiry",
}
"""Rules with too many sentences to say them all."""


@pytest.mark.parametrize("kind", [*KINDS, *(kind.bare for kind in KINDS.values() if kind.bare)])
def test_every_sentence_with_a_value_is_read(kind: str) -> None:
    """Each sentence of each kind of value (of the large ones the first thousands) reads to a value."""
    grammar = lexicon().grammar(Listen((kind,)))
    said = list(grammar.sentences(limit=3_000))
    assert kind in LARGE or len(said) < 3_000
    for sentence in said:
        (node,) = grammar.match(sentence)
        assert reading(node)
