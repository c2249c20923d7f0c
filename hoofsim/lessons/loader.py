"""Lessons from files: every complaint with line, column, what was expected and the nearest valid name."""

from pathlib import Path

from hoofsim.errors import BadInput, nearest
from hoofsim.files.kinds import Kind, kind_word
from hoofsim.files.reader import Document, Path_, read_file
from hoofsim.files.typed import validate
from hoofsim.foot.parameters import BY_NAME
from hoofsim.lessons.answers import FORMS
from hoofsim.lessons.checks import CHECK_NAMES
from hoofsim.lessons.glossary import glossary
from hoofsim.lessons.markup import TERM, Value, links, plain, values
from hoofsim.lessons.schema import OWN, STEP_KINDS, Lesson, Predict
from hoofsim.measures import MEASURES
from hoofsim.resources import scenarios_folder


def load_lesson(document: Document) -> Lesson:
    """The document as a lesson; BadInput with line and column for everything that is wrong."""
    kind_word(document, (LESSON.name,))
    _check_words_that_choose(document)
    lesson = validate(Lesson, document)
    complaints = [
        document.sentence(path, what) for path, text in lesson.texts() for what in _marks_wrong(lesson, text)
    ]
    if complaints:
        raise BadInput("\n".join(complaints))
    return lesson


def read_lesson(path: Path | str) -> Lesson:
    """The lesson in a file."""
    return load_lesson(read_file(path))


def file_stamp(path: Path) -> tuple[float, int]:
    """When a file was written and how long it is, to notice that it was saved; zeros while an editor has it away."""
    try:
        found = path.stat()
    except OSError:
        return 0.0, 0
    return found.st_mtime, found.st_size


def lesson_files() -> list[Path]:
    """The carried lessons in the order of the course."""
    return sorted((scenarios_folder() / "lessons").glob("*.yaml"))


def lesson_id(path: Path | str) -> str:
    """The name under which progress in a lesson is kept: the file's name without its ending, in plain letters."""
    plain = "".join(
        letter if letter.isascii() and letter.isalnum() else "-" for letter in Path(path).stem.lower()
    )
    return plain[:40].strip("-") or "lesson"


def _check_words_that_choose(document: Document) -> None:
    """The words that choose between forms (`kind`, `form`, `check`), so that a slip is met with the nearest one."""
    for path, key, valid in _choosers(document.data):
        value = _at(document.data, path)
        if not isinstance(value, dict):
            continue
        if key not in value:
            raise document.error(path, f"key '{key}' is missing; expected one of {', '.join(valid)}")
        word = value[key]
        if not isinstance(word, str) or word not in valid:
            raise document.error(
                (*path, key), f"unknown {key} {str(word)[:40]!r}; {nearest(str(word)[:40], valid)}"
            )


def _choosers(data: object) -> list[tuple[Path_, str, tuple[str, ...]]]:
    """Where the file chooses a form: path, key and valid words, in the order of the file."""
    found: list[tuple[Path_, str, tuple[str, ...]]] = []
    steps = data.get("steps") if isinstance(data, dict) else None
    for index, step in enumerate(steps if isinstance(steps, list) else []):
        path: Path_ = ("steps", index)
        found.append((path, "kind", STEP_KINDS))
        if not isinstance(step, dict):
            continue
        checks = step.get("reach")
        found += [((*path, "reach", at), "check", CHECK_NAMES) for at in _indices(checks)]
        answer = step.get("answer")
        if isinstance(answer, dict):
            found.append(((*path, "answer"), "form", FORMS))
            options = answer.get("options")
            for at, option in enumerate(options if isinstance(options, list) else []):
                shown = option.get("shown_by") if isinstance(option, dict) else None
                where: Path_ = (*path, "answer", "options", at, "shown_by")
                found += [((*where, number), "check", CHECK_NAMES) for number in _indices(shown)]
    return found


def _indices(value: object) -> range:
    return range(len(value)) if isinstance(value, list) else range(0)


def _at(data: object, path: Path_) -> object:
    for part in path:
        data = data[part]  # type: ignore[index]
    return data


def _marks_wrong(lesson: Lesson, text: str) -> list[str]:
    """What is wrong with the live values and the links of one text."""
    try:
        found = [what for value in values(text) for what in _value_wrong(lesson, value)]
    except ValueError as error:
        return [str(error)]
    if "**" in plain(text) or "](" in plain(text):
        found.append(
            "a mark is not closed, or one stands inside another: write **bold** and [words](term:name) apart"
        )
    for words, target in links(text):
        if not target.startswith(TERM):
            found.append(
                f"link '[{words[:40]}]({target[:40]})' must lead to a term, such as (term:distal_phalanx)"
            )
        elif target.removeprefix(TERM) not in glossary():
            word = target.removeprefix(TERM)
            found.append(f"no term '{word[:40]}' in the glossary; {nearest(word, glossary())}")
    return found


def _value_wrong(lesson: Lesson, value: Value) -> list[str]:
    feet = (*lesson.feet, OWN)
    if value.foot is not None and value.foot not in feet:
        return [f"no foot is called '{value.foot}'; {nearest(value.foot, feet)}"]
    if value.kind in ("measure", "change"):
        valid: list[str] = list(MEASURES)
    elif value.kind == "control":
        valid = list(BY_NAME)
    else:
        valid = [step.id for step in lesson.steps if isinstance(step, Predict)]
        if value.foot is not None:
            return [f"'{value.kind}' takes no '@'"]
    if value.name not in valid:
        return [f"no {value.kind} '{value.name}'; {nearest(value.name, valid)}"]
    return []


LESSON = Kind(
    "lesson",
    "One guided lesson: predict, do, watch, compare, explain, and carry over to another foot.",
    Lesson,
    load_lesson,
)
