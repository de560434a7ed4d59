"""Runs of a trainee through the shipped checklist, sentence by sentence, and the marks that each must get.

Sentences and marks were written by hand from the checklist and docs/practice.md, before the program marked
them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

PAUSE_S = 4.0
"""From the end of a sentence to the beginning of the next, where nothing else is written."""

END = ("end session", "yes end it")


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence, after so many seconds of silence. steps: those that it says, in order."""

    words: str
    steps: tuple[str, ...] = ()
    after_s: float = PAUSE_S


def line(words: str, steps: str = "", after_s: float = PAUSE_S) -> Line:
    return Line(words, tuple(steps.split()), after_s)


PERFECT = (
    line("okay i checked two identifiers and the patient has no allergies", "patient allergies"),
    line("the order is normal saline", "order_fluid"),
    line("one litre over eight hours", "order_volume order_speed"),
    line("there is no arm to avoid and the patient said yes", "limb_to_avoid consent"),
    line("now i'm putting my gloves on", "hands"),
    line("i take a green cannula", "gauge"),
    line("i keep a spare cannula and the kit is ready", "spare kit"),
    line("the set gives twenty drops a millilitre", "drop_factor"),
    line("i use chlorhexidine in alcohol", "antiseptic"),
    line("the flush expires march twenty thirty four", "flush_expiry"),
    line("and the sharps box is open", "sharps_box"),
    line("the bag says sodium chloride zero point nine percent", "bag_fluid"),
    line("it expires june twenty thirty four", "bag_expiry"),
    line("the fluid is clear and the bag is not leaking", "clear dry_bag"),
    line("nothing is added and the set is intact", "additive set_intact"),
    line("i close the clamp and then i spike the bag", "clamp_shut spiked"),
    line("the chamber is half full and i run it through", "chamber run_through"),
    line("there is no air so i shut the clamp", "no_air clamp_again"),
    line("then i prime the lock", "lock_primed"),
    line("i choose the left forearm", "site"),
    line("the tourniquet is on and i feel a vein", "tie vein_felt"),
    line("i take the tourniquet off and i put on fresh gloves", "untie_first fresh_gloves"),
    line("now i clean the skin", "scrub"),
    line("finished with the scrub", "scrubbed", 32),
    line("now the skin is dry", "dry", 32),
    line("putting the tourniquet on", "tie_again"),
    line("i am going in at twenty degrees", "needle"),
    line("and i see a flash", "flash"),
    line("i slide the cannula in", "advanced"),
    line("the tourniquet comes off and i press above the tip", "untie pressed"),
    line("the needle goes in the sharps box", "needle_away"),
    line("now i connect the line", "connected"),
    line("it draws back well and it flushes easily", "draws_back flushes"),
    line("there is no swelling", "no_swelling"),
    line("the dressing is on", "dressed"),
    line("it took one attempt", "attempts"),
    line("i write the label", "labelled"),
    line("still no air in the line", "air_again"),
    line("now i open the clamp", "clamp_open"),
    line("forty two in sixty", "counted"),
    line("the site looks good", "site_fine"),
    line("please tell me if it hurts", "told"),
)

SAID_BY = {step: one for one in PERFECT for step in one.steps}
"""The sentence of each step."""


def upto(step: str) -> tuple[Line, ...]:
    """The perfect run up to the sentence of a step, which is included."""
    return PERFECT[: PERFECT.index(SAID_BY[step]) + 1]


def beyond(step: str) -> tuple[Line, ...]:
    """The perfect run behind the sentence of a step."""
    return PERFECT[PERFECT.index(SAID_BY[step]) + 1 :]


def instead(step: str, *lines: Line) -> tuple[Line, ...]:
    """The perfect run with other lines in place of the sentence of a step."""
    return (*upto(step)[:-1], *lines, *beyond(step))


CRITICAL, STANDS, CORRECTED = "critical", "stands", "corrected"


@dataclass(frozen=True, slots=True)
class Run:
    """lines: what was said before the end. steps: by verdict, those that were not simply done.

    failures: by rule and step, whether it is critical, stands, or was corrected. met: by fault.
    all_missed: nothing was done at all.
    """

    lines: tuple[Line, ...]
    steps: Mapping[str, str] = field(default_factory=dict)
    failures: Mapping[tuple[str, str], str] = field(default_factory=dict)
    met: Mapping[str, bool] = field(default_factory=dict)
    cues: int = 0
    all_missed: bool = False

    def script(self) -> Iterator[str]:
        """As a dialogue of typed lines has it."""
        for one in self.lines:
            yield f"+{one.after_s}"
            if one.words:
                yield one.words
        yield from END


CHATTER = (
    "can somebody open the window please it is hot in here",
    "the weather is nice today isn't it",
    "i had a coffee with my friends this morning",
    "the runners come in at about three in the afternoon",
    "she said that we need more people on the mountain",
    "where did you put my jacket",
)


def chattering() -> Iterator[Line]:
    """The perfect run with other talk in between."""
    for number, one in enumerate(PERFECT):
        yield one
        if number % 6 == 2:
            yield line(CHATTER[number // 6 % len(CHATTER)], after_s=2)


FAILED = (
    *upto("needle"),
    line("there is no flash"),
    SAID_BY["untie"],
    SAID_BY["needle_away"],
    *upto("needle")[PERFECT.index(SAID_BY["site"]) :],
    *beyond("needle"),
)

RUNS: Mapping[str, Run] = MappingProxyType(
    {
        "perfect": Run(PERFECT),
        "missed": Run(
            tuple(one for one in PERFECT if one not in (SAID_BY["spare"], SAID_BY["labelled"])),
            {"missed": "spare kit labelled"},
        ),
        "needle_on_wet_skin": Run(
            instead("dry"),
            {"missed": "dry", "out of order": "tie_again needle"},
            {
                ("tie_again_order", "tie_again"): STANDS,
                ("clean_and_dry", "needle"): CRITICAL,
                ("missed", "dry"): CRITICAL,
            },
        ),
        "cleaned_too_short": Run(
            instead("scrubbed", line("finished with the scrub", "scrubbed", 15)),
            failures={("scrubbed_wait", "scrubbed"): CRITICAL},
        ),
        "tourniquet_left_on": Run(
            instead("advanced", line("i slide the cannula in", "advanced", 125)),
            failures={("tie_is_short", ""): STANDS, ("tie_is_not_left_on", ""): CRITICAL},
        ),
        "needle_left_open": Run(
            (*upto("untie"), SAID_BY["connected"], SAID_BY["needle_away"], *beyond("connected")),
            {"out of order": "connected"},
            {("connected_order", "connected"): STANDS, ("sharp_is_put_away_first", "connected"): CRITICAL},
        ),
        "wrong_arm": Run(
            instead("consent", line("avoid the left arm and the patient said yes", "limb_to_avoid consent")),
            {"out of order": "scrub"},
            {("scrub_order", "scrub"): STANDS, ("site_value", "site"): CRITICAL},
        ),
        "two_faults": Run(
            (
                *upto("bag_fluid"),
                line("instructor the bag is out of date"),
                line("then i take another bag"),
                SAID_BY["bag_fluid"],
                *upto("draws_back")[PERFECT.index(SAID_BY["bag_expiry"]) :],
                line("instructor swelling at the flush"),
                *beyond("draws_back"),
            ),
            failures={("swelling_at_the_flush", ""): CRITICAL},
            met={"bag_out_of_date": True, "swelling_at_the_flush": False},
        ),
        "failed_attempt": Run(
            tuple(
                line("it took two attempts", "attempts") if one is SAID_BY["attempts"] else one
                for one in FAILED
            )
        ),
        "self_correction": Run(
            tuple(
                more
                for one in PERFECT
                for more in {
                    "flush_expiry": (line("the flush expires march twenty twenty", "flush_expiry"), one),
                    "spiked": (line("now i spike the bag", "spiked"), one),
                    "dry": (line("now the skin is dry", "", 8), line("scrub that"), one),
                }.get(one.steps[-1], (one,))
            ),
            failures={("spiked_order", "spiked"): CORRECTED},
        ),
        "silence": Run((line("", after_s=300),), all_missed=True),
        "chatter": Run(tuple(chattering())),
        "cues": Run(
            (*upto("gauge"), line("cue"), line("give me a hint"), *beyond("gauge")),
            {"prompted": "spare"},
            cues=2,
        ),
    }
)
"""By name."""
