"""The Flesch-Kincaid grade of a text: the school year at which it is easily read. Own, so that no library is needed.

grade = 0.39 words/sentence + 11.8 syllables/word - 15.59 (Kincaid et al. 1975). Syllables are counted by rule, which is
right for about nine words in ten; over a paragraph the errors cancel.
"""

import re

from hoofsim.lessons.markup import fill, plain

HIGHEST_GRADE = 9.0
_WORD = re.compile(r"[A-Za-z][A-Za-z'\N{RIGHT SINGLE QUOTATION MARK}]*")
_SENTENCE_END = re.compile(r"[.!?]+(?=[\s)\"']|$)|\n\s*\n|\n(?=\s*- )")
_Y_BETWEEN = re.compile(r"(?<=[aeiou])y(?=[aeiou])")
# A final e that is not heard (save, sole, loads' -ed and -es), kept after the hissing sounds and in centre, handle.
_SILENT = re.compile(
    r"([^aeiouylr]|[aeiouy][lr])e$|([^aeiouy]|[aeiouy][lr])(?<![td])ed$|([^aeiousxzcg])(?<![cs]h)es$"
)
_TWO_SOUNDS = re.compile(r"i[ao](?!u)|eo(?!p)|ea$|ua|uou")
_ONE_SOUND = re.compile(r"[tcsgx]i[ao]|[gq]ua")
_VOWELS = re.compile(r"[aeiouy]+")


def syllables(word: str) -> int:
    """Syllables of an English word, by the groups of its vowels."""
    word = word.lower().strip("'\N{RIGHT SINGLE QUOTATION MARK}")
    if len(word) <= 3:
        return 1
    stem = _SILENT.sub(lambda match: match[1] or match[2] or match[3], word)
    count = len(_VOWELS.findall(_Y_BETWEEN.sub("-", stem)))
    count += len(_TWO_SOUNDS.findall(stem)) - len(_ONE_SOUND.findall(stem))
    return max(count, 1)


def sentences(text: str) -> int:
    """How many sentences, items of a list and headings counted as one each."""
    parts = [part for part in _SENTENCE_END.split(text) if _WORD.search(part)]
    return max(len(parts), 1)


def grade(text: str) -> float:
    """The grade of a plain text; 0 for one without words."""
    words = _WORD.findall(text)
    if not words:
        return 0.0
    sounds = sum(syllables(word) for word in words)
    return 0.39 * len(words) / sentences(text) + 11.8 * sounds / len(words) - 15.59


def bare(text: str) -> str:
    """A lesson's text as it would be read aloud: marks taken off, and a number in place of every live value."""
    return plain(fill(text, lambda value: "8 mm"))
