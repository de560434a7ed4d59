"""Options that take quantities, and the answer in print: what the commands of arithmetic share."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from functools import wraps
from typing import Any

import click

from handsfree.care.infusion.answer import Answer, Found, Terms
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.limits import Limit
from handsfree.care.infusion.patient import Patient
from handsfree.care.infusion.refused import Refused
from handsfree.errors import NotSo, WrongUse
from handsfree.units import Kind, Written, read_written
from handsfree.words import worded

Decorator = Callable[[Callable[..., Any]], Callable[..., Any]]


def quantity_option(name: str, kind: Kind, what: str = "", example: str = "") -> Decorator:
    """An option `--name` that is read as a quantity of that kind; None where it is not given."""

    def read(_: click.Context, __: click.Parameter, texts: tuple[str, ...]) -> Written | None:
        if len(texts) > 1:
            raise WrongUse(worded("{name} is given more than once.", name=name), worded("Give it once."))
        return read_written(texts[0], kind) if texts else None

    text = worded('{what} As in "{example}".', what=what, example=example or kind.example).strip()
    return click.option(name, callback=read, multiple=True, metavar="QUANTITY", help=text)


def terms_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Options of every command of arithmetic; it takes `terms` and `as_json`."""
    kinds = click.Choice([kind.value for kind in Patient])

    @wraps(command)
    def with_terms(*, patient: str | None, whole: bool, profile: str, **others: object) -> object:
        terms = Terms(Patient(patient) if patient else None, whole, _limits(profile))
        return command(terms=terms, **others)

    for option in (
        click.option("--json", "as_json", is_flag=True, help=worded("The answer as one JSON object.")),
        click.option("--whole", is_flag=True, help=worded("mL/h whole, for a pump that takes no tenths.")),
        click.option(
            "--profile", default="", metavar="FILE", help=worded("Local policy: its [[limit]] tables hold.")
        ),
        click.option(
            "--patient", type=kinds, help=worded("Whose usual bounds hold; an infant's numbers go down.")
        ),
    ):
        option(with_terms)
    return with_terms


def _limits(profile: str) -> tuple[Limit, ...]:
    """The limits of local policy; what reads them is loaded only where there is one."""
    if not profile:
        return ()
    from handsfree.shelf import policy_from

    return policy_from(profile).limits


def drug_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """The option `--drug`: a name, empty where it is not given."""
    return click.option(
        "--drug", default="", help=worded("What runs: what must not drip, or be pushed, is refused.")
    )(command)


def given(written: Written | None, option: str, kind: Kind) -> Written:
    """What must be known; raises NotSo where it is not."""
    if written is None:
        raise NotSo(
            worded("Too little is known."),
            worded('Give {option}, as in {option} "{example}".', option=option, example=kind.example),
        )
    return written


def measure(written: Written) -> Measure:
    """What was written, with its unit."""
    return Measure(written.value, written.unit)


def show(answer: Answer | Refused, as_json: bool) -> None:
    """Print an answer; raises NotSo where there is none."""
    if isinstance(answer, Refused):
        raise NotSo(answer.reason)
    click.echo(json.dumps(answer.as_json()) if as_json else "\n".join(_in_words(answer)))


def _in_words(answer: Answer) -> Iterator[str]:
    yield answer.says[:1].upper() + answer.says[1:]
    lines = [(worded(one.name), _line(one)) for one in answer.found]
    width = max((len(name) for name, _ in lines), default=0)
    yield from (f"  {name:<{width}}  {line}" for name, line in lines)
    if "starts_at" in answer.times:
        yield worded("Starts at {when}.", when=_when(answer, "starts"))
    if "ends_at" in answer.times:
        yield worded("Ends at {when}.", when=_when(answer, "ends"))
    yield from (f"{names}: {source}." for source, names in _sources(answer).items())
    yield from answer.cautions


def _sources(answer: Answer) -> dict[str, str]:
    """What each source gave, in the order of the lines."""
    names: dict[str, list[str]] = {}
    for one in answer.found:
        names.setdefault(one.formula.source, []).append(worded(one.name))
    return {source: ", ".join(given).capitalize() for source, given in names.items()}


def _line(one: Found) -> str:
    return f"{one.line} = {one.text}" if one.unit == "min" and " h" in one.text else one.line


def _when(answer: Answer, what: str) -> str:
    """The time of day, and on what day where it is another."""
    at, days = str(answer.times[f"{what}_at"]), int(answer.times[f"{what}_day"])
    match days:
        case 0:
            return at
        case 1:
            return worded("{time} on the next day", time=at)
        case -1:
            return worded("{time} on the day before", time=at)
        case _ if days > 0:
            return worded("{time} {days} days later", time=at, days=days)
        case _:
            return worded("{time} {days} days before", time=at, days=-days)
