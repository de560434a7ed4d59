"""Every interval of the built-in policies is the published one, and falls due when it says."""

from __future__ import annotations

from datetime import timedelta

import pytest

from handsfree.care.decision import Decision
from handsfree.care.reminders.planning import plan
from handsfree.care.reminders.policy import RUNNING, Interval, over, shortest
from handsfree.care.reminders.reminder import KINDS
from handsfree.care.session import Session
from handsfree.shelf import policy_from
from handsfree.testing.dialogue import START
from handsfree.wiring import resources
from tests.dialogues import shipped

INS = "INS position paper 2012, as reproduced by an infusion nurse"
CHART = "administration-set change chart, CDC and INS columns"
MMWR = "MMWR 51 (RR-10), 2002, Appendix B"
CASUALTY = "prolonged casualty care nursing reference (US military)"

HOSPITAL = "children's hospital guideline"

PUBLISHED = [
    ("common", "site", "", 4, f"{INS}: alert adult, at least every 4 h"),
    ("common", "site", "watched", 1, f"{INS}: critically ill, sedated, at least every 1-2 h"),
    ("common", "site", "child", 1, f"{INS}: neonate, child, at least hourly"),
    ("common", "recount", "", 1, "nursing procedures textbook, 9th ed.: hourly against a time tape"),
    ("common", "hang", "", 24, "no national figure, 24 h common: local policy"),
    ("common", "hang", "additive", 24, "infusion-nursing expert: drug added on the ward, 24 h at most"),
    ("common", "catheter", "", 72, "CDC 2011 as cited in the Lancet, 2012: not more often than 72-96 h"),
    ("common", "emergency_line", "emergency", 24, "from memory: UK bundles 24 h, INS 24-48 h, CDC 48 h"),
    ("ins", "tubing_may", "", 96, f"{CHART}: INS, not more often than 96 h"),
    ("ins", "tubing", "intermittent", 24, f"{CHART}: INS, every 24 h"),
    ("ins", "tubing", "lipid", 12, f"{CHART}: INS, 12 h or each container"),
    ("cdc_2011", "tubing_may", "", 96, f"{CHART}: CDC, not more often than 96 h"),
    ("cdc_2011", "tubing", "", 7 * 24, f"{CHART}: CDC, at least every 7 days"),
    ("cdc_2011", "tubing", "lipid", 24, f"{CHART}: CDC, within 24 h of start"),
    ("cdc_2002", "tubing_may", "", 72, f"{MMWR}: not more often than 72 h"),
    ("cdc_2002", "tubing", "lipid", 24, f"{MMWR}: within 24 h of start"),
    ("cdc_2002", "hang", "lipid", 12, f"{MMWR}: lipid alone within 12 h of hanging"),
    ("prolonged_care", "tubing", "", 7 * 24, f"{CASUALTY}: continuous, every 7 days"),
    ("prolonged_care", "tubing", "intermittent", 24, f"{CASUALTY}: intermittent, every 24 h"),
    (
        "common",
        "hang",
        "blood",
        4,
        f"{MMWR}: within 4 h of hanging (NZ: of leaving storage)",
    ),
    ("common", "hang", "nutrition", 24, f"{MMWR}: nutrition that contains lipid, within 24 h"),
    ("ins", "tubing", "blood", 4, f"{CHART}: INS, each unit or every 4 h, with filter"),
    ("ins", "tubing", "nutrition", 24, f"{CHART}: INS, 24 h or each container"),
    ("ins", "tubing", "propofol", 6, f"{CHART}: INS, 6-12 h or each container"),
    ("cdc_2011", "tubing", "blood", 24, f"{CHART}: CDC, within 24 h"),
    ("cdc_2011", "tubing", "propofol", 6, f"{CHART}: CDC, 6 or 12 h, with each vial"),
    ("cdc_2002", "tubing", "blood", 24, f"{MMWR}: within 24 h"),
    ("cdc_2002", "tubing", "nutrition", 24, f"{MMWR}: nutrition with lipid (3-in-1), within 24 h"),
    ("prolonged_care", "tubing", "propofol", 12, f"{CASUALTY}: propofol, 12 h"),
    ("prolonged_care", "catheter", "intraosseous", 24, f"{CASUALTY}: intraosseous 24 h, 48 h at most"),
    ("childrens_hospital", "site", "running", 1, f"{HOSPITAL}: hourly with a continuous infusion"),
    ("childrens_hospital", "site", "", 6, f"{HOSPITAL}: 6-hourly minimum without one"),
    ("childrens_hospital", "site", "child", 6, f"{HOSPITAL}: all its patients are children"),
    ("vip_poster", "site", "", 24, "VIP score card, ward poster: at least daily"),
]
MINUTES = [
    ("common", "site", "vesicant", 5, f"{INS}: intermittent vesicant, every 5-10 min"),
    ("common", "first_count", "", 15, "common practice, no source"),
    ("common", "bag_low", "", 30, "local habit, no source"),
]
TABLE = [
    *((policy, kind, case, timedelta(hours=n), source) for policy, kind, case, n, source in PUBLISHED),
    *((policy, kind, case, timedelta(minutes=n), source) for policy, kind, case, n, source in MINUTES),
]


@pytest.mark.parametrize(("policy", "kind", "case", "after", "source"), TABLE)
def test_the_interval_is_the_published_one(
    policy: str, kind: str, case: str, after: timedelta, source: str
) -> None:
    """In this case, the policy reminds after so long: as the source says."""
    assert after == shortest(policy_from(policy).intervals, kind, (case,))


@pytest.mark.parametrize(("policy", "kind", "case", "after", "source"), TABLE)
def test_it_falls_due_then(policy: str, kind: str, case: str, after: timedelta, source: str) -> None:
    """With its clock begun, the reminder is set for that time."""
    kind = {"first_count": "recount"}.get(kind, kind)
    running = kind == "recount" or case == RUNNING
    clocks = dict.fromkeys(("site", "bag", "tubing", "catheter", *(["flow"] if running else [])), START)
    if after == timedelta(hours=1) and kind == "recount":
        clocks["count"] = START + timedelta(minutes=15)
    session = Session(shipped(), START, intervals=policy_from(policy).intervals, cases=(case,), since=clocks)
    decision = Decision(session, START)
    plan(decision)
    dues = {one.kind: one.due for one in decision.session.reminders}
    if kind != "bag_low":
        assert (
            clocks.get("count" if "count" in clocks and kind == "recount" else "", START) + after
            == dues[kind]
        )


def test_every_interval_is_in_the_table_and_has_its_source() -> None:
    """No built-in policy has an interval that this table does not check, or one without a source."""
    files = sorted(one.stem for one in resources().profiles.glob("*.toml"))
    base = policy_from("common").intervals
    built_in = {
        (name, one.kind, one.case)
        for name in files
        for one in policy_from(name).intervals
        if name == "common" or one not in base
    }
    assert built_in <= {(policy, kind, case) for policy, kind, case, *_ in TABLE}
    assert all(one.source and one.edition for name in files for one in policy_from(name).intervals)


def test_the_shortest_that_applies() -> None:
    """Of a sedated child over a joint, the shortest interval counts."""
    two, one = (
        Interval("site", case, hours * 3600, "s", "e") for case, hours in (("child", 2), ("watched", 1))
    )
    assert timedelta(hours=1) == shortest((two, one), "site", ("child", "watched"))
    assert timedelta(hours=2) == shortest((two, one), "site", ("child",))
    assert shortest((two, one), "site", ()) is None


def test_local_policy_wins() -> None:
    """A local interval takes the place of the one of the same kind and case, and no other."""
    base = (Interval("site", "", 1, "published", "1"), Interval("site", "child", 2, "published", "1"))
    local = (Interval("site", "", 9, "ward", "2"),)
    assert (base[1], local[0]) == over(base, local)


def test_every_kind_has_a_clock_that_something_begins() -> None:
    """Each kind but the user's own is counted from something that the shipped checklist begins."""
    begun = {clock for step in shipped().steps for clock in step.clocks}
    assert {kind.clock for kind in KINDS.values()} - {""} <= begun
