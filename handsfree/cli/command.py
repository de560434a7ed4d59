"""Commands whose help is worded: the documentation of the function, and an example that can be typed."""

from __future__ import annotations

from inspect import cleandoc
from typing import Any

import click

from handsfree.words import worded


class Command(click.Command):
    """A command. epilog: the example, as it is typed."""

    def __init__(self, name: str | None, *, help: str = "", epilog: str = "", **options: Any) -> None:
        example = worded("Example: {typed}", typed=epilog)
        super().__init__(name, help=worded(cleandoc(help)), epilog=example, **options)


class Group(Command, click.Group):
    """A command with others in it."""

    command_class = Command
