"""The line in other hands: what is told of it, from the record."""

from __future__ import annotations

from handsfree.shelf import policy_from
from handsfree.testing.dialogue import SESSION, Talk
from tests.dialogues import CANNULATE, EQUIPMENT, FLUID, ORDER, SECURE, SITE, WHOLE, told

DONE = "Every step is done. Say end session to finish."
HANDED = (*("told",) * 5, "read back wrong", "he read it back", "they take over")


def running(*script: str, after: tuple[str, ...] = WHOLE) -> Talk:
    """A dialogue on the running line, 1000 mL over 8 h; it runs since 08:01."""
    return told(*script, after=after, intervals=policy_from("common").intervals)


def test_handed_over_from_the_record() -> None:
    """Site, gauge, fluid, rate ordered and counted, in and left, due, problems; read back, and taken over."""
    talk = running("+900", "42 in sixty", "bit red", "+1800", "hand over", *HANDED)
    assert talk.said[3:] == (
        "Handover. Say: eighteen, one eight gauge, left forearm. Point at it. Say told after each.",
        "Told. Say: sodium chloride zero point nine percent,"
        " ordered one hundred twenty five, one two five millilitres an hour,"
        " forty two, four two drops a minute. Counted: forty two drops in sixty seconds.",
        "Told. Say what is in, and what is left. About ninety four millilitres in."
        " By the rate, about nine hundred six millilitres left."
        " Empty in seven hours fifteen, one five minutes.",
        "Told. Say what is due. The reminders go along. Count the drops in thirty, three zero minutes."
        " Site check in three hours thirty, three zero minutes."
        " Bag nearly empty in six hours forty five minutes."
        " Bag empty in seven hours fifteen, one five minutes."
        " Bag hung long in twenty three hours fourteen, one four minutes.",
        "Told. Say what was wrong, and what is still open."
        " Site trouble at zero eight sixteen, zero eight one six.",
        "Told. Have it read back: site, fluid, rate, and what is due next.",
        "Say it again, and have it read back once more."
        " Have it read back: site, fluid, rate, and what is due next.",
        "He read it back. Who cares for the line from now on? Say they take over.",
        f"They take over. Handover: done. {DONE}",
    )
    kept = {one.kind for one in running().session.reminders}
    assert {one.kind for one in talk.session.reminders} == kept
    rows = [row for row in talk.journal.read(SESSION) if row.type == "BagTold"]
    assert [(row.body["left_ml"], row.body["given_ml"]) for row in rows] == [("3625/4", "375/4")]


def test_what_was_gone_on_with_in_spite_of_a_stop_is_handed_over() -> None:
    """Whoever takes over hears of it, until the step is done again as it should be."""
    date, late = FLUID[1], ("expires june 2030", "go on anyway because local protocol")
    place = WHOLE.index(date)
    stopped = (*WHOLE[:place], *late, *WHOLE[place + 1 :])
    wrong = "Told. Say what was wrong, and what is still open."
    assert running("hand over", *HANDED[:4], after=stopped).last == f"{wrong} Gone on anyway: bag expiry."

    again = (*WHOLE[:place], *late, "back", date, *WHOLE[place + 1 :])
    assert running("hand over", *HANDED[:4], after=again).last == f"{wrong} No problem was reported."


def test_a_lock_is_handed_over_without_a_drip() -> None:
    """What belongs to the infusion is not asked."""
    equipment = tuple(line for line in EQUIPMENT if line not in ("twenty set", "correct"))
    lock = (
        "two identifiers",
        "lock only",
        *ORDER[-3:],
        *equipment,
        "lock primed",
    )
    talk = running("hand over", "told", "told", "told", after=(*lock, *SITE, *CANNULATE, *SECURE))
    assert talk.said[1] == (
        "Told. Say what is due. The reminders go along."
        " Site check in four hours. Catheter in seventy two hours."
    )
    assert talk.last == "Told. Have it read back: site, fluid, rate, and what is due next."
