"""The command line: `gamutwright describe`, `draft`, `package`, `series build`, `studio` and all the others.

Exit codes: 0 all well, 1 a check failed, 2 input that cannot be used, 130 interrupted. Heavy libraries are imported by
the command that needs them, so that `--help` answers at once.
"""

from gamutwright.cli.app import main

__all__ = ["main"]
