"""`handsfree rate`: the arithmetic of a gravity infusion, from the keyboard."""

from __future__ import annotations

from datetime import date, datetime, time
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import click

from handsfree.care.infusion.answer import Terms
from handsfree.care.infusion.catch_up import Behind
from handsfree.care.infusion.counting import Count
from handsfree.care.infusion.flow import flow_of
from handsfree.care.infusion.rate import RateQuestion, rate_answer
from handsfree.care.infusion.span import Span
from handsfree.cli.command import Command
from handsfree.cli.quantities import drug_option, quantity_option, show, terms_options
from handsfree.errors import WrongUse
from handsfree.say.quantities import quantity
from handsfree.units import Kind, Written
from handsfree.words import worded

_SECONDS_A_MINUTE = 60
_ANY_DAY = date(2000, 1, 1)
_EXAMPLE = 'handsfree rate --volume "1000 mL" --time "8 h" --drop-factor "15 gtt/mL" --start 22:10'


@click.command(cls=Command, epilog=_EXAMPLE)
@quantity_option("--volume", Kind.VOLUME)
@quantity_option("--time", Kind.TIME)
@quantity_option("--rate", Kind.RATE)
@quantity_option("--drop-rate", Kind.DROP_RATE)
@quantity_option("--drop-factor", Kind.DROP_FACTOR, worded("Read it from the pack."))
@click.option("--start", metavar="HH:MM", help=worded("Time of day at which it starts."))
@click.option("--end", metavar="HH:MM", help=worded("Time of day at which it ends."))
@click.option(
    "--on", "day", metavar="YYYY-MM-DD", help=worded("Day of the start (of the end, where it is alone).")
)
@click.option(
    "--zone", help=worded('Whose clock it is, as in "Europe/Berlin": with --on, its changes count.')
)
@click.option("--count", type=click.IntRange(min=1), help=worded("Drops that were counted in --over."))
@quantity_option("--over", Kind.TIME, worded("How long they were counted."), "15 s")
@quantity_option("--given", Kind.VOLUME, worded("To catch up: how much of it is in."), "300 mL")
@quantity_option("--gone", Kind.TIME, worded("To catch up: how much of the time is over."), "3 h")
@click.option(
    "--gauge", type=click.IntRange(14, 26), help=worded("Of the cannula: tells where gravity is not enough.")
)
@drug_option
@terms_options
def rate(
    terms: Terms,
    as_json: bool,
    count: int | None,
    gauge: int | None,
    drug: str,
    **told: Written | str | None,
) -> None:
    """Work out rate, time, volume and drops of a gravity infusion: give what is known.

    It is arithmetic. Check every number independently; the order and local protocol decide.
    """
    known = {name.replace("_", " "): one for name, one in told.items() if isinstance(one, Written)}
    clock = {name: one for name, one in told.items() if isinstance(one, str)}
    question = RateQuestion(
        flow_of({name: one.value for name, one in known.items()}),
        half_steps=flow_of({name: one.half_step for name, one in known.items()}),
        count=_count(count, known.get("over")),
        span=_span(**clock),
        behind=_behind(known.get("given"), known.get("gone")),
        gauge=gauge,
        name=drug,
        terms=terms,
    )
    show(rate_answer(question, quantity), as_json)


def _count(drops: int | None, over: Written | None) -> Count | None:
    if drops is None and over is None:
        return None
    if drops is None or over is None:
        raise WrongUse(
            worded("Drops are counted over a time."), worded('Give both: --count 8 --over "15 s".')
        )
    return Count(drops, over.value * _SECONDS_A_MINUTE)


def _behind(given: Written | None, gone: Written | None) -> Behind | None:
    if given is None and gone is None:
        return None
    if given is None or gone is None:
        raise WrongUse(
            worded("Catching up needs what is in and what is over."),
            worded('Give --given "300 mL" --gone "3 h".'),
        )
    return Behind(given.value, gone.value)


def _span(start: str = "", end: str = "", day: str = "", zone: str = "") -> Span:
    if zone and not day:
        raise WrongUse(worded("A clock is changed on a day."), worded("Give --on with --zone."))
    on, where = _day(day), _zone(zone)
    return Span(*(datetime.combine(on, _clock(text), where) if text else None for text in (start, end)))


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text) if text else _ANY_DAY
    except ValueError:
        raise WrongUse(
            worded('"{text}" is not a day.', text=text),
            worded("Write year, month and day, as in 2031-05-04."),
        ) from None


def _zone(name: str) -> ZoneInfo | None:
    try:
        return ZoneInfo(name) if name else None
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise WrongUse(
            worded('"{name}" is not a zone that is known here.', name=name),
            worded('Write it like "Europe/Berlin".'),
        ) from None


def _clock(text: str) -> time:
    hours, _, minutes = text.partition(":")
    if hours.isdecimal() and minutes.isdecimal() and len(minutes) == 2 and len(hours) <= 2:
        hour, minute = int(hours), int(minutes)
        if hour < 24 and minute < 60:
            return time(hour, minute)
    raise WrongUse(
        worded('"{text}" is not a time of day.', text=text), worded('Write hours and minutes, as in "07:30".')
    )
