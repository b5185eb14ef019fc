"""How long a test waits for what may hang.

A guard against waiting for ever and nothing else: no process that a test starts needs a
hundredth of it, so that slow and busy machines do not fail for being slow.
"""

HANGING = 1800.0
"""Seconds after which a process is taken to hang."""
