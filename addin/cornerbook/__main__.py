"""`python -m cornerbook` is the command `cornerbook`."""

import sys

from .cli import main

sys.exit(main())
