"""docs/hazards.md: each way in which the program could hurt has a control, and a test that is there."""

from __future__ import annotations

import ast
import re
from functools import cache

import pytest

from tests.house.documents import ROOT

TEXT = (ROOT / "docs" / "hazards.md").read_text("utf-8")
ROWS = [row.strip("|").split("|") for row in TEXT.splitlines() if re.match(r"\| H\d+ \|", row)]
PROOFS = sorted(set(re.findall(r"`(tests/[\w/]+\.py)::(test_\w+)(?:\[([^\]]+)\])?`", TEXT)))


@cache
def _tree(file: str) -> ast.Module:
    return ast.parse((ROOT / file).read_text("utf-8"))


@pytest.mark.parametrize(("file", "test", "row"), PROOFS)
def test_proof_is_there(file: str, test: str, row: str) -> None:
    """A named test stands in its file; the row of a table that is named stands there too."""
    tests = {node.name for node in _tree(file).body if isinstance(node, ast.FunctionDef)}
    texts = {node.value for node in ast.walk(_tree(file)) if isinstance(node, ast.Constant)}

    assert test in tests
    assert not row or row in texts


def test_every_hazard_has_control_and_proof() -> None:
    """No row is empty, no test is named outside of what is checked, and numbers go up by one."""
    assert [f"H{n}" for n in range(1, len(ROWS) + 1)] == [row[0].strip() for row in ROWS]
    assert [] == [row[0] for row in ROWS if not all(cell.strip() for cell in row) or "tests/" not in row[-1]]
    assert TEXT.count("`tests/") == len(re.findall(r"`tests/[\w/]+\.py::test_\w+(?:\[[^\]]+\])?`", TEXT))
