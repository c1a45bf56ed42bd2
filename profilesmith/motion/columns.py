"""Which arithmetic on columns is at hand: numpy's where it is installed, else plain Python's. Both give the same
results.
"""

from importlib.util import find_spec
from types import ModuleType

from profilesmith.motion import plain_columns


def best_columns() -> ModuleType:
    """The quicker of the two that is at hand."""
    if find_spec("numpy") is None or find_spec("profilesmith.motion.numpy_columns") is None:
        return plain_columns
    from importlib import import_module

    return import_module("profilesmith.motion.numpy_columns")
