"""Evidence tables for the tests: a good one to spoil."""

import csv
import io

import numpy as np

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.generate import invented_films, table_text
from hoofsim.claims.evidence.reader import films_in


def films(account="slide_through", cases=1, seed=1, error=0.5, **more):
    return invented_films(ACCOUNTS[account], cases, np.random.default_rng(seed), error, **more)


def rows_of(text):
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return list(csv.DictReader(io.StringIO("\n".join(lines))))


def good_rows(account="slide_through", cases=1, **more):
    """Rows (dicts) of a good table, to be changed and written again."""
    return rows_of(table_text(films(account, cases, **more), "test"))


def text_of(rows):
    columns = list(dict.fromkeys(column for row in rows for column in row))
    stream = io.StringIO()
    writer = csv.DictWriter(stream, columns, restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return stream.getvalue()


def cases_of(rows):
    return paired(films_in(text_of(rows), "t.csv"), "t.csv")
