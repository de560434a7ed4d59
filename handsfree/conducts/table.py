"""The kinds of session, by the name that the record keeps."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from handsfree.conducts.conduct import Conduct
from handsfree.conducts.drill import DRILL
from handsfree.conducts.guide import GUIDE
from handsfree.conducts.practice import PRACTICE

CONDUCTS: Mapping[str, Conduct[Any]] = MappingProxyType(
    {"guide": GUIDE, "practice": PRACTICE, "drill": DRILL}
)
"""By name. A new kind is a row here, and a session that `Course` describes."""
