"""All the rival accounts: every module of this package that defines `ACCOUNT`. A sixth account is one more file."""

from collections.abc import Mapping
from importlib import import_module
from pathlib import Path
from typing import Final

from hoofsim.claims.accounts.account import Account
from hoofsim.errors import BadInput, nearest

# The order in which tables and figures show those named; any other follows by name.
_FIRST = ("slide_through", "carried_sole", "flared_wall", "sinking", "tipped_foot")


def _found() -> dict[str, Account]:
    package = __name__.rpartition(".")[0]
    stems = [file.stem for file in sorted(Path(__file__).parent.glob("*.py"))]
    modules = [import_module(f"{package}.{stem}") for stem in stems if stem not in ("__init__", "registry")]
    accounts = {module.ACCOUNT.name: module.ACCOUNT for module in modules if hasattr(module, "ACCOUNT")}
    order = [name for name in _FIRST if name in accounts]
    return {name: accounts[name] for name in (*order, *(name for name in accounts if name not in order))}


ACCOUNTS: Final[Mapping[str, Account]] = _found()


def account(name: str) -> Account:
    """The account called `name`; `BadInput` with the nearest valid name when there is none."""
    if name not in ACCOUNTS:
        raise BadInput(f"There is no account '{name}': {nearest(name, ACCOUNTS)}")
    return ACCOUNTS[name]
