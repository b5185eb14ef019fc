"""Every formula, declared once. `FORMULAS` lists them, `call` runs one for a host."""

from . import layout  # noqa: F401  (declares its formulas on import)
from .call import call  # noqa: F401
from .declare import FORMULAS, Argument, Formula  # noqa: F401
