"""A small lesson with every kind of step and every form of answer, for the tests of this room."""

from hoofsim.files.reader import read_text
from hoofsim.lessons.loader import load_lesson
from hoofsim.lessons.schema import Lesson

SMALL = """\
hoofsim: 1
kind: lesson
title: A small lesson
summary: What a raised heel does.
for: the tests
minutes: 9
goals:
  - id: pull
    text: Say what a raised heel does to the pull.
cautions: true
feet:
  start: {preset: sound}
  raised: {preset: sound, set: {heel_change_mm: 8}}
  pony: {preset: pony}
  pony_raised: {preset: pony, set: {heel_change_mm: 6}}
steps:
  - id: intro
    kind: read
    title: The foot
    text: "The [deep flexor](term:deep_flexor_tendon) pulls with **{measure:tendon_tension}**."
    measures: [tendon_tension]
  - id: way
    kind: predict
    title: Which way
    text: The heel goes up by {control:heel_change_mm@raised}.
    question: What does the pull do?
    outcome: raised
    hints:
      - {text: Follow the tendon., look_at: [tendon_insertion]}
      - {text: It gets shorter., look_at: [navicular_flexor]}
    answer: {form: direction, measure: tendon_tension, same_within: 30, if_wrong: the path of the tendon.}
  - id: how_much
    kind: predict
    title: How much
    text: The same.
    question: By how much?
    outcome: raised
    answer: {form: number, measure: tendon_tension, of: change, full: 100, half: 250, if_wrong: the size of it.}
  - id: where
    kind: predict
    title: Where
    text: The same.
    question: Where will the tip be?
    outcome: raised
    answer: {form: position, landmark: tip, full: 3, half: 6, if_wrong: the tip itself.}
  - id: raise
    kind: do
    title: Raise it
    text: Raise the heel.
    free:
      - {control: heel_change_mm, low: 0, high: 15}
      - {control: toe_change_mm, low: 0, high: 10}
    reach:
      - {check: measure_falls, measure: tendon_tension, by: 250}
      - {check: one_change}
    solution: {heel_change_mm: 8}
    if_wrong: the pull as the heel rises.
    hints: [{text: Try five., look_at: [tendon_tension]}]
    goals: [pull]
  - id: see
    kind: watch
    title: See
    text: It changed by {change:tendon_tension}.
    foot: raised
    measures: [tendon_tension, palmar_angle]
    plot: {control: heel_change_mm, from: 0, to: 10, steps: 6}
  - id: compare_way
    kind: compare
    title: Way
    prediction: way
    text: You said {predicted:way}, and {outcome:way}.
  - id: compare_much
    kind: compare
    title: Much
    prediction: how_much
    text: So.
  - id: compare_where
    kind: compare
    title: Place
    prediction: where
    text: So.
  - id: why
    kind: explain
    title: Why
    text: Think.
    question: Why did it fall?
    goals: [pull]
    answer:
      form: choice
      order: given
      options:
        - {id: path, text: The path is shorter, marks: 1, because: A shorter path pulls less.}
        - {id: half, text: The angle changed, marks: 0.5, because: Look further at the path.}
        - {id: weight, text: Less weight, marks: 0, because: Look at the load instead.}
  - id: pick
    kind: explain
    title: Pick
    text: "Which measures part two [accounts](term:account)?"
    question: Which two?
    answer:
      form: pick
      up_to: 2
      among: [palmar_angle, capsular_rotation, phalangeal_rotation]
      accounts: [slide_through, tipped_foot]
      if_wrong: what moves in one of the two only.
  - id: pony
    kind: transfer
    title: A pony
    text: The same on a pony.
    question: What does the pull do?
    foot: pony
    outcome: pony_raised
    answer: {form: direction, measure: tendon_tension, same_within: 30, if_wrong: the path of the tendon.}
  - id: words
    kind: explain
    title: In words
    text: Now you.
    question: Say it in your own words.
    answer: {form: words, model: A raised heel lowers the pull., at_least: 4}
learners:
  - name: right
    types:
      way: [falls, "3"]
      how_much: ["-376 N"]
      where: ["55.5 15.5"]
      raise: [heel_change_mm 8, check]
      compare_way: ["4"]
      why: [path]
      pick: [palmar_angle capsular_rotation]
      pony: [falls]
      words: [It lowers the pull today]
    expect: {passes: true, marks: {way: 1, why: 1, pick: 1, pony: 1}}
  - name: wrong
    types:
      way: [rises]
      how_much: ["500"]
      where: ["0 0"]
      raise: [check, give up]
      why: [weight, half]
      pick: [palmar_angle, phalangeal_rotation palmar_angle]
      pony: [rises, stays]
      words: [I do not know it]
    expect: {passes: false, told: [Look at the load instead, the path of the tendon]}
  - name: wandering
    types:
      intro: [leave, back, nonsense]
      way: [hint, leave, falls, rises, back]
      how_much: [300 mm, "-100"]
      where: ["1", "57 14"]
      raise: [heel_change_mm 99, heel_change_mm 3, check, reset, heel_change_mm 10, leave, check, step intro]
      why: [half, leave, path]
      pick: ["7", "1 2"]
      pony: [leave, falls]
      words: [no, It lowers the pull today]
    expect: {passes: true}
"""


def small_lesson(old: str = "", new: str = "") -> Lesson:
    """The lesson, with one piece replaced."""
    assert old in SMALL, old
    return load_lesson(read_text(SMALL.replace(old, new, 1) if old else SMALL, "small.yaml"))
