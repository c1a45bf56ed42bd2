"""What kind of file a fixture is, by where it lies in a library."""

from pathlib import Path

from profilesmith.library.find import KINDS
from profilesmith.lint.names import COUPON_LOG, COUPONS, EVIDENCE


def kind_of(path: Path) -> str:
    """``keymaps/shop.toml`` is a key map, ``slow.toml`` a recipe."""
    folder = path.absolute().parent.name
    if path.name.endswith(COUPON_LOG):
        return "coupon log"
    if folder == "troubles":
        return "troubles"
    if folder == COUPONS:
        return "coupon"
    if path.suffix == EVIDENCE[1] or folder == EVIDENCE[0]:
        return "evidence"
    return next((kind for kind, parts in KINDS.items() if folder in parts and kind != "recipe"), "recipe")
