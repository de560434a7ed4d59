"""The command line: `run` is its one door."""

from __future__ import annotations

from handsfree.cli.run import run

__all__ = ["run"]
