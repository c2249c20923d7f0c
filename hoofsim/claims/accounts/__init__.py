"""The rival accounts of "rotation", one a file, each predicting every measure from geometry alone."""

from hoofsim.claims.accounts.account import Account
from hoofsim.claims.accounts.conformance import check_account
from hoofsim.claims.accounts.registry import ACCOUNTS, account

__all__ = ["ACCOUNTS", "Account", "account", "check_account"]
