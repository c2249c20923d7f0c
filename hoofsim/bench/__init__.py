"""Honest timings: each bench sets the program beside a fair referee in the same run and prints ratios.

Absolute times depend on the machine and are shown only for orientation; no test is judged by them.
"""
