"""The word for a product of two settings that is kept; where it is refused, what can be kept and of which settings."""

from collections.abc import Callable, Sequence
from typing import Any

from profilesmith.recipe.operations import WINDOW, Operation
from profilesmith.recipe.recipe import Fixed
from profilesmith.vocabulary.setting import Setting

Complain = Callable[[Operation, str, str], None]


def read_product(
    operation: Operation, written: Any, settings: Sequence[Setting], word: Callable[[Setting], str], complain: Complain
) -> Fixed | None:
    """The word as an operand. word: a setting as the file has it."""
    product = operation.products.get(written) if isinstance(written, str) else None
    misfits = [setting for setting in settings if product is None or setting.id not in product.settings]
    for setting in misfits or (settings if product is None else ()):
        message = (
            f"{operation.name} keeps a product of two settings, and takes the word for it."
            if product is None
            else f"{word(setting)}: there is no {written} to {operation.name}."
        )
        complain(operation, message, _product_hint(operation, setting, word(setting)))
    return Fixed(written) if isinstance(written, str) else None


def _product_hint(operation: Operation, setting: Setting, word: str) -> str:
    """What to write for a setting that has a product; else of which settings they are, and what does for this one."""
    for name, product in operation.products.items():
        if setting.id in product.settings:
            return f'Write {operation.name} = "{name}" here: {product.meaning}.'
    known = " or ".join(f'"{name}" (of {", ".join(product.settings)})' for name, product in operation.products.items())
    instead = f"To leave {word} as it is, write no rule on it; to keep it near, write {WINDOW.name}."
    return f"It can keep {known}. {instead}"
