"""From plain values to a pydantic model, every complaint with file, line, column, what was expected, nearest name."""

from collections.abc import Mapping
from typing import Any, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError, model_validator
from pydantic_core import PydanticCustomError

from hoofsim.errors import BadInput, nearest
from hoofsim.files.reader import Document, Path_

MOST_COMPLAINTS = 10


class Strict(BaseModel):
    """Base of every model that a file is read into: frozen, no unknown keys, no silent conversion of types.

    Use `list[...]` for sequences (a strict tuple refuses a list) and `Field(alias=...)` where a key is a Python word.
    """

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, allow_inf_nan=False)

    @model_validator(mode="before")
    @classmethod
    def _refuse_unknown_keys(cls, data: Any) -> Any:
        """Name an unknown key and its nearest valid one, which pydantic's own complaint cannot."""
        if isinstance(data, dict):
            valid = [field.alias or name for name, field in cls.model_fields.items()]
            for key in data:
                if key not in valid:
                    raise PydanticCustomError(
                        "unknown_key",
                        "unknown key '{key}'; {suggestion}",
                        {"key": key, "suggestion": nearest(key, valid)},
                    )
        return data


Model = TypeVar("Model", bound=Strict)


class Misplaced(ValueError):
    """Raised inside a model's validator: `what` is wrong with the value under `path` below that model."""

    def __init__(self, path: Path_, what: str) -> None:
        super().__init__(what)
        self.path = path


def validate(model: type[Model], document: Document) -> Model:
    """The document as that model; BadInput with one line for each thing wrong, in the order of the file."""
    if not isinstance(document.data, dict):
        what = "the file is empty" if document.data is None else "the file is not a list of keys and values"
        raise document.error((), f"{what}; expected keys such as 'hoofsim: 1'")
    try:
        return model.model_validate(document.data)
    except ValidationError as error:
        placed = sorted(_placed(document, dict(detail)) for detail in error.errors(include_url=False))
        lines = list(dict.fromkeys(sentence for _, sentence in placed))
    more = len(lines) - MOST_COMPLAINTS
    if more > 0:
        lines = [*lines[:MOST_COMPLAINTS], f"{document.name}: and {more} more"]
    raise BadInput("\n".join(lines))


def _placed(document: Document, detail: Mapping[str, Any]) -> tuple[tuple[int, int], str]:
    """Position and full sentence of one pydantic complaint."""
    context = detail.get("ctx", {})
    path = _path_in(document.data, detail["loc"])
    cause = context.get("error")
    if isinstance(cause, Misplaced):
        path = _path_in(document.data, (*path, *cause.path))
    at_key = detail["type"] == "unknown_key"
    if at_key:
        path = (*path, context["key"])
    elif detail["type"] == "missing":
        path = _path_in(document.data, path)
    named = ".".join(str(part) if isinstance(part, str) else str(part + 1) for part in path)
    what = _words(detail, context)
    sentence = what if at_key or not named else f"{named}: {what}"
    return document.position(path), document.sentence(path, sentence, at_key)


def _path_in(data: Any, location: tuple[Any, ...]) -> Path_:
    """The part of pydantic's location that exists in the data: names of union members and missing keys fall out."""
    path: list[str | int] = []
    for part in location:
        if (isinstance(data, dict) and part in data) or (
            isinstance(data, list) and isinstance(part, int) and 0 <= part < len(data)
        ):
            data = data[part]
            path.append(part)
    return tuple(path)


_EXPECTED = {
    "string_type": "text",
    "float_type": "a number",
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "bool_type": "true or false",
    "list_type": "a list",
    "dict_type": "keys and values",
    "model_type": "keys and values",
    "model_attributes_type": "keys and values",
}


def _words(detail: Mapping[str, Any], context: Mapping[str, Any]) -> str:
    """One complaint in plain words: what it is and what is expected."""
    kind, given = detail["type"], detail.get("input")
    if kind == "missing":
        return f"key '{detail['loc'][-1]}' is missing"
    if kind in _EXPECTED:
        return f"expected {_EXPECTED[kind]}, not {shown(given)}"
    if kind == "literal_error":
        valid = [
            word.strip().strip("'") for word in str(context["expected"]).replace(" or ", ", ").split(",")
        ]
        return f"{shown(given)} is not allowed; {nearest(str(given), valid)}"
    if kind == "value_error":
        return str(context["error"])
    return (
        f"{shown(given)}: {str(detail['msg'])[:1].lower()}{str(detail['msg'])[1:]}"
        if kind != "unknown_key"
        else (str(detail["msg"]))
    )


def shown(given: Any) -> str:
    """A given value, short enough for a sentence."""
    if isinstance(given, dict):
        return "a set of keys"
    if isinstance(given, list):
        return "a list"
    text = "nothing" if given is None else str(given).lower() if isinstance(given, bool) else repr(given)
    return text if len(text) <= 40 else text[:37] + "..."
