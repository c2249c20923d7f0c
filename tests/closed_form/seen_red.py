"""Every check of this folder is shown a wrong law and must complain: a check that cannot fail proves nothing.

`check(law)` raises AssertionError when `law` does not solve the problem; a mutant is the right law with one thing wrong (a
sign, a lever, a lost term).
"""

from collections.abc import Callable

import pytest


def must_fail(check: Callable, mutant: Callable) -> None:
    """Run `check` on the mutant and require that it fails, as an assertion and not for some other reason."""
    with pytest.raises(AssertionError):
        check(mutant)
