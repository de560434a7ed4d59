"""Another language is a file: a made-up one is spoken everywhere, and what is wrong in one stays English."""

from __future__ import annotations

import csv
import json
import os
import re
import shlex
import subprocess
import sys
import tomllib
from collections.abc import Iterable, Iterator
from html import unescape
from pathlib import Path

import click
import polib
import pytest

from handsfree.care.infusion import sources
from handsfree.cli.group import COMMANDS, handsfree
from handsfree.cli.guide import guide
from handsfree.say import numbers, quantities
from handsfree.words import read, usable
from tests.house.documents import PACKAGE
from tests.house.words import CATALOGUE

LEFT, RIGHT = "⟦", "⟧"

SITE_CHECK = ("no swelling", "where am i", "next", "skip", "wrong", "what can i say", "swollen", "go on")

PRACTISED = """WEBVTT

00:00:05.000 --> 00:00:06.000
two identifiers

00:00:20.000 --> 00:00:21.000
cue

00:00:30.000 --> 00:00:31.000
where am i

00:00:40.000 --> 00:00:41.000
end session

00:00:50.000 --> 00:00:51.000
yes end it
"""


def in_marks(file: Path, *, language: str = "x-marks") -> Path:
    """A language in which each sentence is the English one in brackets."""
    made = polib.pofile(str(CATALOGUE))
    made.metadata["Language"] = language
    for one in made:
        one.msgstr = f"{LEFT}{one.msgid}{RIGHT}"
    made.save(str(file))
    return file


def translated(file: Path, words: Iterable[tuple[str, str]]) -> Path:
    """A language of a few words."""
    made = polib.POFile()
    made.metadata = {"Content-Type": "text/plain; charset=UTF-8"}
    for english, other in words:
        made.append(polib.POEntry(msgid=english, msgstr=other))
    made.save(str(file))
    return file


def typed(*arguments: object, words: Path, lines: tuple[str, ...] = ()) -> subprocess.CompletedProcess[str]:
    """One command with the words of a file."""
    return run("-m", "handsfree", *arguments, words=words, lines=lines)


def run(*arguments: object, words: Path, lines: tuple[str, ...] = ()) -> subprocess.CompletedProcess[str]:
    """Python with the words of a file."""
    return subprocess.run(
        [sys.executable, *map(str, arguments)],
        env=os.environ | {"HANDSFREE_WORDS": str(words)},
        input="".join(f"{line}\n" for line in lines),
        capture_output=True,
        text=True,
        check=False,
        timeout=100,
    )


def unmarked(text: str) -> str:
    """What stands in no brackets."""
    inside = re.compile(rf"{LEFT}[^{LEFT}{RIGHT}]*{RIGHT}")
    while inside.search(text):
        text = inside.sub("", text)
    return text


def strange(text: str, known: Iterable[str]) -> set[str]:
    """Words in no brackets that belong to no text which is known."""
    left = unmarked(text)
    for one in sorted({*known, *SAID_BY_CODE}, key=len, reverse=True):
        left = re.sub(rf"(?<!\w){re.escape(one)}(?!\w)", " ", left, flags=re.IGNORECASE)
    return set(re.findall(r"[^\W\d_]{2,}", left))


def shown(page: str) -> str:
    """What is read on a page, also by whoever cannot see it; the words for its script are all in brackets."""
    for found in re.findall('id="words">(.*?)</script>', page):
        brought = json.loads(found)
        assert brought
        assert brought == {english: f"{LEFT}{english}{RIGHT}" for english in brought}
    assert '<html lang="x-marks">' in page
    markup = re.sub(r"<(script|style).*?</\1>|</?b>", "", page, flags=re.DOTALL)
    read = [*re.findall('(?:aria-label|title)="([^"]*)"', markup), *re.split("<[^>]*>", markup)]
    return unescape("\n".join(read))


def of_checklist(name: str) -> set[str]:
    """The texts of a checklist and of emergencies, which are files, and what stands between their places."""
    files = [PACKAGE / "checklists" / f"{one}.toml" for one in (name, "emergencies")]
    texts = {text for file in files for text in _texts(tomllib.loads(file.read_text("utf-8")))}
    parts = {part.strip(" .,") for text in texts for part in (text, *re.split(r"(?<=\.) |\{[\w ]+\}", text))}
    return parts - {""}


def _texts(value: object) -> Iterator[str]:
    match value:
        case str(text):
            yield text.replace("_", " ")
        case dict() | list():
            for one in value.values() if isinstance(value, dict) else value:
                yield from _texts(one)


SAID_BY_CODE = {
    *(*numbers._ONES, *numbers._TENS, *(name for _, name in numbers._SCALES)),
    *(word for words in quantities._COUNTED.values() for word in words),
    *(*quantities._COUNTED, "point", "an"),
}
"""Numbers and units."""

TITLES = {text for text in vars(sources).values() if isinstance(text, str)}


def _options(command: click.Command) -> set[str]:
    """What is typed, and click's own words: it has a catalogue of its own."""
    own = (
        "Usage: OPTIONS COMMAND ARGS Options: default Show this message and exit. Show the version and exit."
    )
    told = [str(one.to_info_dict() | {"help": "", "metavar": one.metavar}) for one in command.params]
    return {
        word
        for text in (own, "handsfree and help", *COMMANDS, *told)
        for word in re.findall(r"[^\W_]+", text)
    }


@pytest.fixture(scope="module")
def words(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The language in brackets."""
    return in_marks(tmp_path_factory.mktemp("words") / "marks.po")


def test_a_session_is_held_in_another_language(words: Path, tmp_path: Path) -> None:
    """Whatever the program adds to the checklist is looked up, and the checklist is a file by itself."""
    session = ("guide", "site_check", "--ear", "typed", "--sessions", tmp_path)
    ran = typed(*session, words=words, lines=SITE_CHECK)
    assert (0, set()) == (ran.returncode, strange(ran.stdout, {*of_checklist("site_check"), *SITE_CHECK}))
    assert f"{LEFT}This step is critical: say its own words.{RIGHT}" in ran.stdout
    assert ran.stderr.startswith(f"{LEFT}Kept as ")


@pytest.mark.parametrize(
    ("file", "keys"), [("record.csv", ("who", "kind", "what")), ("marks.csv", ("kind",))]
)
def test_what_programs_sort_by_stays_english(
    words: Path, file: str, keys: tuple[str, ...], tmp_path: Path
) -> None:
    """Data of a session have the same keys in any language; only its text is read in it."""
    kept = ("--sessions", tmp_path)
    typed("guide", "site_check", "--ear", "typed", *kept, words=words, lines=(*SITE_CHECK, "end session"))
    typed("export", "last", "--out", tmp_path / "out", *kept, words=words)
    with (tmp_path / "out" / file).open(encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table))

    assert rows
    assert [] == [row[name] for row in rows for name in keys if LEFT in row[name]]
    text = (tmp_path / "out" / "record.txt").read_text("utf-8")
    read = {f"{LEFT}{key}{RIGHT}" for key in ("user", "check", "began")}
    assert read <= set(re.findall(f"{LEFT}\\w*{RIGHT}", text))


@pytest.mark.parametrize(
    ("line", "status", "known"),
    [
        ("rate --volume '1000 mL' --time '8 h' --drop-factor '15 gtt/mL' --start 22:10", 0, TITLES),
        ("rate --volume '1000 mL' --time '0 h'", 1, set()),
        ("dose --dose '5 mcg/kg/min' --weight '80 kg' --amount '800 mg' --in '500 mL'", 0, TITLES),
        ("guide nowhere", 2, {"nowhere", *(file.stem for file in (PACKAGE / "checklists").glob("*.toml"))}),
        ("guide site_check --store nowhere://", 3, set()),
        ("--help", 0, _options(handsfree)),
        ("guide --help", 0, _options(guide)),
    ],
)
def test_the_terminal_speaks_it(words: Path, line: str, status: int, known: set[str]) -> None:
    """Answers, errors and help: nothing is told but in brackets, apart from numbers, names and titles."""
    ran = typed(*shlex.split(line), words=words)
    assert (status, set()) == (ran.returncode, strange(ran.stdout + ran.stderr, known))
    assert LEFT in ran.stdout + ran.stderr


def test_a_run_is_practised_and_debriefed_in_it(words: Path, tmp_path: Path) -> None:
    """What is said in a run, what its page shows, and what the page's script will."""
    (tmp_path / "run.vtt").write_text(PRACTISED)
    out, page, kept = tmp_path / "said.vtt", tmp_path / "page.html", ("--sessions", tmp_path / "kept")
    told = ("--mode", "practice", "--start", "2031-05-04T08:00:00Z", "--until", "00:01:00", "--out", out)
    typed("replay", tmp_path / "run.vtt", *told, *kept, words=words)
    typed("debrief", "last", "--out", page, *kept, words=words)

    checklist = of_checklist("peripheral_iv")
    said = re.findall("<v Handsfree>(.*)", out.read_text("utf-8"))
    assert (5, set()) == (len(said), strange("\n".join(said), checklist))

    assert set() == strange(
        shown(page.read_text("utf-8")), {*checklist, *PRACTISED.splitlines(), "May", "Handsfree"}
    )


BOARD = """
from datetime import UTC, datetime
from starlette.testclient import TestClient
from handsfree.show.board.guard import Codes
from handsfree.show.board.notice import Notices
from handsfree.show.board.server import Board

for codes in (None, Codes(lambda: None)):
    board = Board(Notices(), lambda: datetime.now(UTC), codes)
    print(TestClient(board.app(frozenset({"testserver"}))).get("/").text)
"""


def test_the_board_shows_it(words: Path) -> None:
    """The page, the door where it wants a code, and what the page's script puts up."""
    ran = run("-c", BOARD, words=words)
    board, door = ran.stdout.split("</html>")[:2]
    assert (set(), set()) == (strange(shown(board), ()), strange(shown(door), ()))
    assert LEFT in door


@pytest.mark.parametrize(
    ("english", "other"),
    [
        ("The board: {url}", "Die Tafel"),
        ("The board: {url}", "Die Tafel: {address}"),
        ("The board: {url}", "Die Tafel: {url.__class__.__mro__}"),
        ("The board: {url}", "Die Tafel: {url[0]}"),
        ("The board: {url}", "Die Tafel: {url!r}"),
        ("The board: {url}", "Die Tafel: {url:>1000000000}"),
        ("The board: {url}", "Die Tafel: {0.__class__}"),
        ("The board: {url}", "Die Tafel: {url"),
        ("The board: {url}", ""),
        ("Session ended.", "Ende. {0.__class__}"),
        ("Session ended.", "Ende.\nTaken."),
    ],
)
def test_what_is_wrong_stays_english(tmp_path: Path, english: str, other: str) -> None:
    """Places that are missing, unknown, or look into the program are none; nothing breaks in mid-session."""
    file = translated(tmp_path / "wrong.po", [(english, other), ("Listening.", "Ich höre.")])
    assert {"Listening.": "Ich höre."} == usable(read(str(file)))


def test_what_is_right_is_taken(tmp_path: Path) -> None:
    """Places may stand in another order, and twice; braces that are only braces are left alone."""
    right = [
        ("{name} in {time}.", "In {time}: {name}, {name}."),
        ("Close it with “}”; inside a tag write “\\}” for “}”.", "Mit “}” schließen."),
    ]
    assert dict(right) == usable(read(str(translated(tmp_path / "right.po", right))))


def test_a_fuzzy_word_stays_english(tmp_path: Path) -> None:
    """What a translator has not looked at yet does not count (GNU gettext manual, "Fuzzy Entries")."""
    file = tmp_path / "fuzzy.po"
    file.write_text('#, fuzzy\nmsgid "Listening."\nmsgstr "Ich höre."\n', "utf-8")
    assert {} == usable(read(str(file)))


@pytest.mark.parametrize("content", [None, b"\xff\xfe\x00", b"just a text\n"])
def test_a_file_that_is_none(tmp_path: Path, content: bytes | None) -> None:
    """One sentence with the next step and status 3, before anything else is done."""
    file = tmp_path / "broken.po"
    if content is not None:
        file.write_bytes(content)
    ran = typed("--help", words=file)
    assert (3, "", 1) == (ran.returncode, ran.stdout, ran.stderr.count("\n"))
    assert ran.stderr.startswith(f"The words in {file} cannot be read: ")
    assert ran.stderr.endswith(" Mend the file, or unset HANDSFREE_WORDS.\n")
