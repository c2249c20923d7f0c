"""What all tests share: no test is judged by the clock, since two machines differ."""

from hypothesis import settings

settings.register_profile("no clock", deadline=None)
settings.load_profile("no clock")
