"""What ``__init__.py`` gives, for type checkers: there the names wait until somebody asks for them."""

from profilesmith.foundation.problem import Refused
from profilesmith.workflows.check import check
from profilesmith.workflows.compare import compare
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.read import read
from profilesmith.workflows.request import Request

__version__: str
__all__ = ["Refused", "Request", "__version__", "check", "compare", "derive", "read", "write"]
