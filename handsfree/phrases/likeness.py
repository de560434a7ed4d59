"""Sentences that sound alike: of two different meanings, and yet a sound apart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from rapidfuzz.distance import Levenshtein
from rapidfuzz.process import cdist

CONFUSED = (
    *("P T K", "F TH S SH", "B D G", "V DH Z ZH", "M N NG"),
    *("IY IH", "EH AE", "AA AO AH", "UW UH", "CH JH"),
)
"""Phones that noise makes one of. Consonants: Miller and Nicely, An analysis of perceptual confusions among
some English consonants, J. Acoust. Soc. Am. 27 (1955), where the place of articulation is lost first, voicing
and nasality last. NG, the affricates and the vowels: from memory."""

FREE_SOUNDS = 10
"""Sentences may differ by one sound, and by one more for each so many that they have, and still be taken for
each other (common practice, no source)."""

Said = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Alike:
    """Two sentences of different rules that are `apart` sounds from each other."""

    rule: str
    said: Said
    other_rule: str
    other_said: Said
    apart: int


@dataclass(frozen=True, slots=True)
class _Sounding:
    rule: str
    said: Said
    sounds: str


def alike(
    ours: Mapping[str, Iterable[Said]],
    others: Mapping[str, Iterable[Said]],
    pronounced: Mapping[str, tuple[str, ...]],
) -> Iterator[Alike]:
    """For each rule of `ours` and each other rule, of either, the nearest pair that sounds alike.

    pronounced: the phones of words, in ARPAbet; a sentence with a word that is not there is passed over.
    """
    mine, all_of_them = _sounding(ours, pronounced), _sounding({**others, **ours}, pronounced)
    nearest: dict[frozenset[str], Alike] = {}
    for one, other, apart in _near(mine, all_of_them):
        if one.rule == other.rule or apart > _allowed(one, other):
            continue
        pair = frozenset((one.rule, other.rule))
        if pair not in nearest or apart < nearest[pair].apart:
            nearest[pair] = Alike(one.rule, one.said, other.rule, other.said, apart)
    yield from nearest.values()


def _near(mine: list[_Sounding], others: list[_Sounding]) -> Iterator[tuple[_Sounding, _Sounding, int]]:
    if not mine:
        return
    most = max(_allowed(one, one) for one in mine)
    table = cdist(
        [one.sounds for one in mine],
        [other.sounds for other in others],
        scorer=Levenshtein.distance,
        score_cutoff=most,
    )
    for row, column in zip(*(table <= most).nonzero(), strict=True):
        yield mine[row], others[column], int(table[row][column])


def _allowed(one: _Sounding, other: _Sounding) -> int:
    """Sounds by which they may differ; words of a sound or two are nothing but their difference."""
    shorter, longer = sorted((len(one.sounds), len(other.sounds)))
    return 1 + longer // FREE_SOUNDS if shorter > 2 else 0


def _sounding(
    rules: Mapping[str, Iterable[Said]], pronounced: Mapping[str, tuple[str, ...]]
) -> list[_Sounding]:
    return [
        _Sounding(rule, said, "".join(_letter(phone) for word in said for phone in pronounced[word]))
        for rule, sentences in rules.items()
        for said in sentences
        if all(word in pronounced for word in said)
    ]


_GROUPS = {phone: group.split()[0] for group in CONFUSED for phone in group.split()}
_ALPHABET: dict[str, str] = {}


def _letter(phone: str) -> str:
    """One character for all phones that are taken for each other."""
    group = _GROUPS.get(phone, phone)
    return _ALPHABET.setdefault(group, chr(ord("a") + len(_ALPHABET)))
