"""`handsfree rate`: the arithmetic of a gravity infusion, from the keyboard."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from datetime import time
from typing import Any

import click

from handsfree.care.infusion.answers import RateQuestion, rate_answer
from handsfree.care.infusion.counting import Count
from handsfree.care.infusion.flow import Flow
from handsfree.care.infusion.refused import Refused
from handsfree.errors import NotSo, WrongUse
from handsfree.say.quantities import quantity
from handsfree.units import Kind, read_written

_FIELDS = {
    "volume": ("volume_ml", Kind.VOLUME),
    "time": ("time_min", Kind.TIME),
    "rate": ("rate_ml_per_h", Kind.RATE),
    "drop_rate": ("drop_rate_per_min", Kind.DROP_RATE),
    "drop_factor": ("drop_factor_per_ml", Kind.DROP_FACTOR),
}
"""For each option: the field of a Flow, and what is written there."""

_SECONDS_A_MINUTE = 60

_NUMBERS = ("rate", "drop_rate", "drop_factor", "volume", "time", "seconds_per_drop")


def _quantity_options(command: Callable[..., Any]) -> Callable[..., Any]:
    for name, (_, kind) in reversed(_FIELDS.items()):
        option = click.option(f"--{name.replace('_', '-')}", name, help=f'As in "{kind.example}".')
        command = option(command)
    return command


@click.command(epilog='Example: handsfree rate --volume "1000 mL" --time "8 h" --drop-factor "15 gtt/mL"')
@_quantity_options
@click.option("--start", help='Time of day at which it starts, as in "07:30"; tells when it ends.')
@click.option("--count", type=click.IntRange(min=1), help="Drops that were counted in --over.")
@click.option("--over", help='How long they were counted, as in "15 s".')
@click.option("--json", "as_json", is_flag=True, help="The answer as one JSON object.")
def rate(start: str | None, count: int | None, over: str | None, as_json: bool, **known: str | None) -> None:
    """Work out rate, time, volume and drops of a gravity infusion: give what is known.

    It is arithmetic. Check every number independently; the order and local protocol decide.
    """
    question = _question(known, count=_count(count, over), start=_start(start))
    answer = rate_answer(question, quantity)
    if isinstance(answer, Refused):
        raise NotSo(answer.reason)
    click.echo(json.dumps(answer) if as_json else _in_words(answer))


def _question(texts: Mapping[str, str | None], *, count: Count | None, start: time | None) -> RateQuestion:
    written = {
        field: read_written(text, kind)
        for name, (field, kind) in _FIELDS.items()
        if (text := texts[name]) is not None
    }
    known = Flow(**{field: one.value for field, one in written.items()})
    half_steps = Flow(**{field: one.half_step for field, one in written.items()})
    return RateQuestion(known, half_steps=half_steps, count=count, start=start)


def _count(drops: int | None, over: str | None) -> Count | None:
    if drops is None and over is None:
        return None
    if drops is None or over is None:
        raise WrongUse("Drops are counted over a time.", 'Give both: --count 8 --over "15 s".')
    return Count(drops, read_written(over, Kind.TIME).value * _SECONDS_A_MINUTE)


def _start(text: str | None) -> time | None:
    if text is None:
        return None
    hours, _, minutes = text.partition(":")
    if not (hours.isdecimal() and minutes.isdecimal() and len(minutes) == 2):
        raise _no_time(text)
    try:
        return time(int(hours), int(minutes))
    except ValueError:
        raise _no_time(text) from None


def _no_time(text: str) -> WrongUse:
    return WrongUse(f'"{text}" is not a time of day.', 'Write hours and minutes, as in "07:30".')


def _in_words(answer: Mapping[str, Any]) -> str:
    says = str(answer["says"])
    lines = [says[:1].upper() + says[1:]]
    lines += [_number(name, answer[name]) for name in _NUMBERS if name in answer]
    if "ends_at" in answer:
        lines.append(f"Ends at {answer['ends_at']}{_day(answer['ends_day'])}.")
    return "\n".join([*lines, f"Method: {answer['method']}", *answer["cautions"]])


def _number(name: str, told: Mapping[str, str]) -> str:
    return (
        f"{name.replace('_', ' ').capitalize()}: {told.get('text') or told['rounded'] + ' ' + told['unit']}"
    )


def _day(days: int) -> str:
    return {0: "", 1: " on the next day"}.get(days, f" {days} days later")
