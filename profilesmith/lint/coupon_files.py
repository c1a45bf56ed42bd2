"""C11x: whether what a coupon's plan names is at hand, and a log has its plan."""

from collections.abc import Iterator
from pathlib import PurePosixPath

from profilesmith.lint.names import COUPON_LOG
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import CouponLog, CouponPlan


def _recipes(file: CouponPlan) -> Iterator[Fault]:
    for word in file.plan.recipes:
        is_file = bool(PurePosixPath(word).suffix) or "/" in word
        there = (file.path.parent / word).is_file() if is_file else file.names.has_recipe(word)
        if not there:
            yield Fault(f"There is no recipe {word!r}.", file.lines.get(("plan", "recipes")))


def _around(file: CouponPlan) -> Iterator[Fault]:
    for number, factor in enumerate(file.plan.factors):
        if file.plan.kind == "threshold" and factor.around is None:
            yield Fault(
                f"The plan does not say where recipes have {factor.setting}.", file.lines.get(("factor", number))
            )


def _planless(file: CouponLog) -> Iterator[Fault]:
    if not file.path.with_name(file.path.name.removesuffix(COUPON_LOG) + ".toml").is_file():
        yield Fault("There is no plan beside this log.")


PLAN_RULES = (
    LintRule(
        "C110",
        "error",
        "The recipes of a plan are at hand",
        "Prints of a coupon are derived with them; without one they are prints of something else.",
        "Correct the name, or bring the recipe back.",
        _recipes,
    ),
    LintRule(
        "C111",
        "hint",
        "A threshold says where it begins",
        "A search that begins in the middle of a wide range needs some prints more.",
        'Add around = "..." to the factor: the recipe\'s value.',
        _around,
    ),
)
LOG_RULES = (
    LintRule(
        "C210",
        "error",
        "A log lies beside its plan",
        "Grades without the question that they answer say nothing.",
        "Bring the plan back: the same name, ending in .toml.",
        _planless,
    ),
)
