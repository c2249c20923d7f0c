"""What a learner typed or clicked, as an answer: read once, kept in one canonical form, shown in plain words.

Canonical forms: a number in the measure's own unit, a direction's word, an option's id, "x y" in mm, measure names with
spaces between, or the sentence itself.
"""

import math
import re

from hoofsim.errors import BadInput, nearest
from hoofsim.lessons.answers import (
    DIRECTIONS,
    Answer,
    ChoiceAnswer,
    DirectionAnswer,
    NumberAnswer,
    PickAnswer,
    PositionAnswer,
    WordsAnswer,
)
from hoofsim.measures import MEASURES
from hoofsim.units import millimetres, show, shown_unit

LARGEST = 1e6
LONGEST_ANSWER = 1500
_NUMBER = re.compile(r"([-+\N{MINUS SIGN}]?\s*(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+))\s*([^\s0-9.,]*)")
_SAME_UNIT = {"deg": ("deg", "degrees", "degree", "°"), "mm": ("mm",), "N": ("n", "newton", "newtons"),
              "MPa": ("mpa",), "1": ()}  # fmt: skip
_INCH = ("in", "inch", "inches", '"')
_DIRECTION_WORDS = {
    "rises": ("rises", "rise", "up", "grows", "more", "r", "+", "1"),
    "falls": ("falls", "fall", "down", "shrinks", "less", "f", "-", "2"),
    "stays": ("stays", "stay", "same", "unchanged", "s", "=", "3"),
}


def read_answer(answer: Answer, text: str) -> str:
    """The canonical form of what was typed; BadInput saying what can be typed when it is no answer of this form."""
    text = " ".join(text.split())
    if len(text) > LONGEST_ANSWER:
        raise BadInput(f"that is longer than {LONGEST_ANSWER} letters; say it shorter")
    if not text:
        raise BadInput(asks(answer))
    if isinstance(answer, NumberAnswer):
        return repr(_number(text, MEASURES[answer.measure].unit))
    if isinstance(answer, DirectionAnswer):
        for word, spellings in _DIRECTION_WORDS.items():
            if text.lower() in spellings:
                return word
        raise BadInput(f"'{text[:30]}' is no direction: {nearest(text.lower(), DIRECTIONS)}")
    if isinstance(answer, ChoiceAnswer):
        ids = [option.id for option in answer.shown]
        return _one_of(text, ids, "option")
    if isinstance(answer, PositionAnswer):
        parts = _NUMBER.findall(text)
        if len(parts) != 2:
            raise BadInput(asks(answer))
        x, y = (_plain_number(number) for number, _ in parts)
        return f"{x!r} {y!r}"
    if isinstance(answer, PickAnswer):
        words = re.split(r"[\s,;+]+", text.strip(" ,;+"))
        picked = list(dict.fromkeys(_one_of(word, answer.among, "measure") for word in words))
        if len(picked) > answer.up_to:
            raise BadInput(f"that is {len(picked)} measures; pick at most {answer.up_to}")
        return " ".join(picked)
    if len(text.split()) < answer.at_least:
        raise BadInput(f"say it in at least {answer.at_least} words; it is kept for your instructor")
    return text


def asks(answer: Answer, length_unit: str = "mm") -> str:
    """What can be typed, in one sentence."""
    if isinstance(answer, NumberAnswer):
        measure = MEASURES[answer.measure]
        unit = shown_unit(measure.unit, length_unit)
        in_unit = f" in {unit}" if unit else ""
        signed = " (with a minus when it falls)" if answer.of == "change" else ""
        return f"type a number{in_unit}{signed}"
    if isinstance(answer, DirectionAnswer):
        least = show(answer.same_within, MEASURES[answer.measure].unit, length_unit)
        return f"type {', '.join(DIRECTIONS[:-1])} or {DIRECTIONS[-1]} (less than {least} is stays)"
    if isinstance(answer, ChoiceAnswer):
        return f"type the number of your choice, 1 to {len(answer.options)}"
    if isinstance(answer, PositionAnswer):
        return "type x and y in mm (x to the toe, y up), or click the place on the drawing"
    if isinstance(answer, PickAnswer):
        return f"type the numbers of at most {answer.up_to} measures, with spaces between"
    return f"write a sentence of at least {answer.at_least} words; it is kept for your instructor"


def in_words(answer: Answer, given: str, length_unit: str = "mm") -> str:
    """A canonical answer as a person reads it."""
    if isinstance(answer, NumberAnswer):
        return show(float(given), MEASURES[answer.measure].unit, length_unit, signed=answer.of == "change")
    if isinstance(answer, ChoiceAnswer):
        return next((option.text for option in answer.options if option.id == given), given)
    if isinstance(answer, PositionAnswer):
        x, y = (float(part) for part in given.split())
        return f"x {show(x, 'mm', length_unit)}, y {show(y, 'mm', length_unit)}"
    if isinstance(answer, PickAnswer):
        return " and ".join(MEASURES[name].label for name in given.split())
    return given


def still_fits(answer: Answer, given: str) -> bool:
    """Whether a canonical answer kept from earlier is one of this form (the lesson may have changed since)."""
    try:
        if isinstance(answer, WordsAnswer):
            return bool(given)
        return read_answer(answer, given) == given
    except BadInput:
        return False


def _number(text: str, unit: str) -> float:
    """A number with or without its unit; inches are turned into mm."""
    match = _NUMBER.fullmatch(text)
    if match is None:
        raise BadInput(f"'{text[:30]}' is no number: type such as 12{_after(unit)}")
    value, given = _plain_number(match[1]), match[2].lower()
    if unit == "mm" and given in _INCH:
        return millimetres(value)
    if given and given not in _SAME_UNIT.get(unit, (unit.lower(),)):
        raise BadInput(
            f"'{match[2][:20]}' is not the unit here: give it in {shown_unit(unit) or 'plain numbers'}"
        )
    return value


def _plain_number(text: str) -> float:
    value = float(text.replace("\N{MINUS SIGN}", "-").replace(",", ".").replace(" ", ""))
    if not math.isfinite(value) or abs(value) > LARGEST:
        raise BadInput(f"{text[:20]} is too large a number")
    return value


def _after(unit: str) -> str:
    return f" {shown_unit(unit)}" if shown_unit(unit) else ""


def _one_of(text: str, valid: list[str], what: str) -> str:
    """One of the valid names, or its number counted from 1."""
    if text.isascii() and text.isdigit() and len(text) < 4:
        number = int(text)
        if not 1 <= number <= len(valid):
            raise BadInput(f"there is no {what} {number}; type 1 to {len(valid)}")
        return valid[number - 1]
    if text.lower() in valid:
        return text.lower()
    raise BadInput(f"'{text[:30]}' is no {what} here: {nearest(text.lower(), valid)}")
