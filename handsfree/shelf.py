"""What there is to go by: built-in checklists and policies by name, the user's own by file."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from handsfree.care.checklist import Checklist
from handsfree.care.checklist_file import read_checklist
from handsfree.care.checklist_others import with_others
from handsfree.care.infusion.limits import Limit
from handsfree.care.infusion.limits_file import read_limits
from handsfree.care.reminders.policy import Interval
from handsfree.care.reminders.policy_file import read_policy
from handsfree.errors import WrongUse
from handsfree.wiring import resources
from handsfree.words import worded


def checklist_from(name: str) -> Checklist:
    """A built-in checklist by name, or a file of the user's own, with those that may begin over it.

    Raises WrongUse, ChecklistError.
    """
    main = _checklist_at(f"{name}.toml") if _is_built_in(name) else _checklist(Path(name), name)
    return with_others(main, _checklist_at)


def _checklist_at(place: str) -> Checklist:
    """The checklist at a place as `with_others` has it: a path has a slash in it, a built-in one has none."""
    return _checklist(Path(place) if "/" in place else resources().checklists / place, place)


def _checklist(file: Path, name: str) -> Checklist:
    try:
        text = file.read_text("utf-8")
    except FileNotFoundError:
        raise _refused(worded("There is no checklist {file}.", file=_shown(file))) from None
    except (OSError, UnicodeDecodeError):
        raise _refused(worded("The checklist {file} cannot be read.", file=_shown(file))) from None
    return read_checklist(text, name, emergencies())


def _shown(file: Path) -> str:
    """As the user named it."""
    return file.stem if file.parent == resources().checklists else str(file)


def checklist_names() -> list[str]:
    """Those that are built in."""
    return sorted({one.stem for one in resources().checklists.glob("*.toml")} - {"emergencies"})


def _refused(wrong: str) -> WrongUse:
    names = ", ".join(checklist_names())
    return WrongUse(wrong, worded("Name a TOML file in UTF-8, or a built-in one: {names}.", names=names))


@dataclass(frozen=True, slots=True)
class Policy:
    """Local policy: when it reminds of what, and its own limits on numbers; a built-in one has none."""

    intervals: tuple[Interval, ...]
    limits: tuple[Limit, ...] = ()


def policy_from(name: str) -> Policy:
    """A built-in policy by name, or one from a file of the user's own. Raises WrongUse, PolicyError."""
    if not _is_built_in(name):
        text = _policy_text(name)
        return Policy(read_policy(text, name, built_in_policy), read_limits(text, name))
    try:
        return Policy(built_in_policy(name))
    except KeyError as known:
        raise WrongUse(
            worded("There is no policy {name}.", name=name),
            worded("Name a TOML file, or a built-in one: {why}.", why=known.args[0]),
        ) from None


def _is_built_in(name: str) -> bool:
    return "/" not in name and not name.endswith(".toml")


def _policy_text(name: str) -> str:
    try:
        return Path(name).read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        raise WrongUse(
            worded("The policy {name} cannot be read.", name=name), worded("Name a TOML file in UTF-8.")
        ) from None


def built_in_policy(name: str) -> tuple[Interval, ...]:
    """The intervals of a built-in policy. Raises KeyError with the names that there are."""
    files = {one.stem: one for one in sorted(resources().profiles.glob("*.toml"))}
    if name not in files:
        raise KeyError(", ".join(files))
    return read_policy(files[name].read_text("utf-8"), files[name].name, built_in_policy)


def emergencies() -> str:
    """The shipped emergencies, as TOML."""
    return (resources().checklists / "emergencies.toml").read_text("utf-8")
