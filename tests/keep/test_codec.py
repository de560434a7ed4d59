"""Events come back from JSON as they were."""

from __future__ import annotations

import json
from dataclasses import dataclass, fields, replace
from datetime import UTC, date, datetime, timedelta, timezone
from enum import Enum
from fractions import Fraction
from typing import Any, ClassVar

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.errors import StoreDamaged
from handsfree.keep.codec import Codec
from handsfree.keep.fields import read_time, written_time
from handsfree.ports import Row


class Side(Enum):
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Site:
    side: Side
    name: str


@dataclass(frozen=True, slots=True)
class Everything:
    text: str
    whole: int
    number: float
    flag: bool
    exact: Fraction
    at: datetime
    day: date
    side: Side
    site: Site
    pair: tuple[str, int]
    sites: tuple[Site, ...]
    left_ml: Fraction | None
    by_name: dict[str, Fraction]
    nested: dict[str, tuple[date | None, ...]]


@dataclass(frozen=True, slots=True)
class Nothing:
    VERSION: ClassVar[int] = 2


CODEC = Codec([Everything, Nothing])

times = st.datetimes(timezones=st.just(UTC))
sites = st.builds(Site)
everything = st.builds(
    Everything,
    number=st.floats(allow_nan=False, allow_infinity=False),
    at=times,
    sites=st.lists(sites).map(tuple),
)


def stored(event: object) -> Row:
    name, version, body = CODEC.encode(event)
    return Row("s1", 7, "", name, version, json.loads(json.dumps(body)))


@given(event=everything)
def test_every_kind_of_field_comes_back(event: Everything) -> None:
    """What was written as JSON is read as the same event, field by field of the same type."""
    back = CODEC.decode(stored(event))

    assert event == back
    assert [type(getattr(event, field.name)) for field in fields(event)] == [
        type(getattr(back, field.name)) for field in fields(back)
    ]


def test_type_and_version_stand_beside_the_body() -> None:
    """The type is the name of the class, the version its VERSION, and 1 where it has none."""
    assert CODEC.encode(Nothing()) == ("Nothing", 2, {})
    assert Nothing() == CODEC.decode(stored(Nothing()))


EVENT = Everything(
    text="a",
    whole=1,
    number=0.5,
    flag=True,
    exact=Fraction(125, 4),
    at=datetime(2031, 5, 4, 8, 0, tzinfo=UTC),
    day=date(2031, 5, 4),
    side=Side.LEFT,
    site=Site(Side.RIGHT, "forearm"),
    pair=("a", 1),
    sites=(),
    left_ml=None,
    by_name={"a": Fraction(2)},
    nested={"a": (None, date(2031, 5, 4))},
)


def test_the_form_in_json_is_plain() -> None:
    """Fractions are "a/b", times RFC 3339 with microseconds and Z, enums their values."""
    _, _, body = CODEC.encode(EVENT)

    assert body == {
        "text": "a",
        "whole": 1,
        "number": 0.5,
        "flag": True,
        "exact": "125/4",
        "at": "2031-05-04T08:00:00.000000Z",
        "day": "2031-05-04",
        "side": "left",
        "site": {"side": "right", "name": "forearm"},
        "pair": ["a", 1],
        "sites": [],
        "left_ml": None,
        "by_name": {"a": "2/1"},
        "nested": {"a": [None, "2031-05-04"]},
    }


DAMAGED: tuple[tuple[str, object], ...] = (
    ("text", 1),
    ("text", None),
    ("whole", "1"),
    ("whole", True),
    ("number", "0.5"),
    ("flag", 1),
    ("exact", "1/0"),
    ("exact", "0.5"),
    ("exact", 2),
    ("at", "2031-05-04T08:00:00Z"),
    ("at", "2031-13-04T08:00:00.000000Z"),
    ("day", "2031-02-30"),
    ("day", 20310504),
    ("side", "middle"),
    ("side", None),
    ("site", {"side": "left"}),
    ("site", []),
    ("pair", ["a"]),
    ("pair", "ab"),
    ("sites", {}),
    ("left_ml", "x"),
    ("by_name", []),
    ("nested", {"a": None}),
)


@pytest.mark.parametrize(("name", "value"), DAMAGED)
def test_a_bad_body_names_its_row(name: str, value: object) -> None:
    """A field of another form is damage, told with row and session."""
    row = stored(EVENT)

    with pytest.raises(StoreDamaged, match="Row 7 of session s1 can't be read as Everything"):
        CODEC.decode(replace(row, body={**row.body, name: value}))


@pytest.mark.parametrize("body", [{}, {**stored(EVENT).body, "more": 1}])
def test_missing_and_unknown_fields_are_damage(body: dict[str, Any]) -> None:
    """A body has exactly the fields of its class."""
    with pytest.raises(StoreDamaged, match="other fields"):
        CODEC.decode(replace(stored(EVENT), body=body))


@pytest.mark.parametrize(("name", "version"), [("Unheard", 1), ("Everything", 2), ("Nothing", 1)])
def test_an_unknown_type_names_its_row(name: str, version: int) -> None:
    """A type or version that nobody gave is told with row and session."""
    with pytest.raises(StoreDamaged, match=f"Row 7 of session s1 .* {name}, version {version}"):
        CODEC.decode(replace(stored(EVENT), type=name, v=version))


def test_events_of_other_classes_are_not_written() -> None:
    """An event that could not be read back is refused while it is written."""
    with pytest.raises(KeyError):
        CODEC.encode(Site(Side.LEFT, "hand"))


@dataclass(frozen=True, slots=True)
class Grown:
    text: str
    added: int = 3


def test_a_record_from_before_a_field_was_there() -> None:
    """A field that was added later has its default; what never had one is damage."""
    codec = Codec([Grown])

    assert codec.decode(Row("s1", 7, "", "Grown", 1, {"text": "a"})) == Grown("a")
    with pytest.raises(StoreDamaged, match="other fields"):
        codec.decode(Row("s1", 7, "", "Grown", 1, {"added": 4}))


@dataclass(frozen=True, slots=True)
class Mixed:
    value: int | str


@dataclass(frozen=True, slots=True)
class Loose:
    value: list[int]


@pytest.mark.parametrize("event", [Mixed, Loose])
def test_fields_of_unknown_kinds_are_found_at_the_start(event: type) -> None:
    """A class that could not come back is refused before anything is written."""
    with pytest.raises(TypeError):
        Codec([event])


@given(at=st.datetimes(timezones=st.timezones() | st.just(timezone(timedelta(hours=5, minutes=30)))))
def test_times_come_back_as_the_same_moment(at: datetime) -> None:
    """Any zone is written as UTC."""
    try:
        text = written_time(at)
    except OverflowError:
        return

    assert at.astimezone(UTC) == read_time(text)


def test_a_time_without_a_zone_is_not_written() -> None:
    """Nobody could tell which moment it was."""
    with pytest.raises(ValueError, match="no time zone"):
        written_time(datetime(2031, 5, 4))
