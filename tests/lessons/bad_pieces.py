"""Pieces of a good lesson and of a good progress file, and what they may turn into: every one of them is refused."""

LESSON_SWAPS = (
    (
        "measure: tendon_tension",
        ["measure: tendon_tensoin", "measure: 3", "measure: null", "measure: [a]", "measure: ''"],
    ),
    (
        "{measure:tendon_tension}",
        [
            "{measure:tendn}",
            "{import:os}",
            "{measure:tendon_tension.__class__}",
            "{}",
            "{0.__init__}",
            "{measure:tendon_tension@nowhere}",
            "{predicted:intro}",
            "{outcome:nothing}",
            "{{1+1}}",
        ],
    ),
    (
        "(term:deep_flexor_tendon)",
        ["(term:deep_flexer)", "(http://example.org)", "(javascript:alert)", "(file:///etc/passwd)"],
    ),
    (
        "control: heel_change_mm, low: 0, high: 15",
        [
            "control: heel, low: 0, high: 15",
            "control: heel_change_mm, low: 9, high: 1",
            "control: heel_change_mm, low: 0, high: 900",
            "control: heel_change_mm, low: a",
        ],
    ),
    (
        "check: one_change",
        ["check: two_change", "check: eval", "check: 1", "chek: one_change", "check: one_change, by: 3"],
    ),
    ("kind: predict", ["kind: prdict", "kind: 7", "kind: [predict]", "kind: python"]),
    ("form: direction", ["form: directon", "form: code", "form: 1"]),
    ("outcome: raised", ["outcome: rised", "outcome: 1", "outcome: null"]),
    (
        "full: 100, half: 250",
        [
            "full: -1, half: 250",
            "full: 300, half: 250",
            "full: .inf, half: 250",
            "full: x, half: 250",
            "full: .nan, half: 250",
            "half: 250",
            "full: 1e400, half: 250",
        ],
    ),
    (
        "solution: {heel_change_mm: 8}",
        ["solution: {heel_change_mm: 80}", "solution: {toe: 1}", "solution: {}", "solution: 8"],
    ),
    (
        "minutes: 9",
        ["minutes: -9", "minutes: 9.5", "minutes: soon", "minutes: 99999999999999999999", "minutes: null"],
    ),
    (
        "preset: pony}",
        [
            "preset: poney}",
            "preset: pony, set: {heel_change_mm: 999}}",
            "preset: pony, set: {x: 1}}",
            "preset: pony, load: {case: gallop}}",
            "preset: pony, weeks: {days: -1}}",
            "preset: pony, weeks: {days: 300}}",
        ],
    ),
    (
        "start: {preset: sound}",
        ["begin: {preset: sound}", "start: sound", "start: {}\n  own: {preset: sound}"],
    ),
    ("prediction: way", ["prediction: ways", "prediction: why", "prediction: compare_way", "prediction: 1"]),
    ("id: why", ["id: way", "id: ''", "id: A B", "id: ../../x", "id: 12345", "id: " + "x" * 41]),
    ("goals: [pull]", ["goals: [push]", "goals: pull", "goals: [1]", "goals: [[pull]]"]),
    ("landmark: tip", ["landmark: tipp", "landmark: 1"]),
    (
        "accounts: [slide_through, tipped_foot]",
        ["accounts: [slide_trough, tipped_foot]", "accounts: [slide_through]", "accounts: []"],
    ),
    ("look_at: [tendon_insertion]", ["look_at: [tendon_insert]", "look_at: tip", "look_at: [1]"]),
    ("marks: 0.5", ["marks: 1.5", "marks: -1", "marks: half", "marks: true"]),
    ("title: A small lesson", ["title: ''", "title: " + "x" * 101, "title: null", "title: [a]", "title: 3"]),
    ("cautions: true", ["cautions: yes", "cautions: 1", "pass_at: 0", "pass_at: 2"]),
    ("name: wrong", ["name: worng", "name: 1"]),
    (
        "      way: [rises]",
        ["      wya: [rises]", "      way: rises", "      way: [1]", "      way: [[rises]]"],
    ),
)
PROGRESS_SWAPS = (
    (
        "learner: Ada",
        ["learner: ''", "learner: 5", "learner: null", "learner: " + "x" * 61, "learner: [Ada]"],
    ),
    ("lesson: small", ["lesson: ../../small", "lesson: S M", "lesson: 5", "lesson: ''"]),
    ("at: raise", ["at: ../raise", "at: 4", "at: null", "at: [raise]"]),
    ("finished: false", ["finished: no", "finished: 0", "finished: maybe"]),
    ("events: 8", ["events: -8", "events: 8.5", "events: many", "events: 99999999999999"]),
    ("kind: predict", ["kind: 5", "kind: null", "kind: " + "x" * 21]),
    ("answer: falls", ["answer: 5", "answer: [falls]", "answer: " + "x" * 4001]),
    ("marks: null", ["marks: 2", "marks: -0.1", "marks: .inf", "marks: .nan", "marks: full"]),
    ("seconds: 2.0", ["seconds: -2.0", "seconds: .inf", "seconds: 1e300", "seconds: long"]),
    ("sure_before: null", ["sure_before: 0", "sure_before: 5", "sure_before: 2.5", "sure_before: sure"]),
    ("hints: 0", ["hints: -1", "hints: 0.5", "hints: none"]),
    (
        "heel_change_mm: 4",
        ["heel_change_mm: four", "heel_change_mm: .nan", "heel_change_mm: null", "heel_change_mm: [4]"],
    ),
    ("own_foot: start", ["own_foot: 3", "own_foot: " + "x" * 41]),
    ("done: true", ["done: yes", "done: 1"]),
)
