"""A moment as the page reads it: one JSON object, without a line end."""

from __future__ import annotations

import json
from dataclasses import asdict
from datetime import datetime
from enum import Enum

from handsfree.glance import Glance, Status, besides


def written(seen: Glance, status: Status) -> str:
    """What is to be seen, the same as long as nothing changes."""
    shown = {"glance": asdict(seen), "status": asdict(status), "besides": besides(seen, status)}
    return json.dumps(shown, default=_plain)


def _plain(value: object) -> str:
    match value:
        case datetime():
            return value.isoformat()
        case Enum():
            return str(value.value)
        case _:
            raise TypeError(f"{value!r} is nothing that the page knows.")
