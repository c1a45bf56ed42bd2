"""R100 to R103 and their like: what the loaders say, one number a kind of mistake, in the loaders' own words.

The rules here find nothing themselves; ``lint_file.py`` puts a loader's problems under the number that names their
code.
"""

from collections.abc import Iterable, Iterator

from profilesmith.foundation.problem import Problem
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.rule import LintRule

FORMAT = ("wrong-format", "newer-format", "no-format")
_FIX = "Do what the message says; 'profilesmith schema' prints what an editor needs to complete and check the file."


def _reading(number: str, word: str) -> LintRule:
    why = f"A {word} with a mistake is refused as a whole, so that nothing is half understood."
    return LintRule(number, "error", f"The {word} can be read", why, _FIX)


def _format(number: str) -> LintRule:
    why = "The format says which rules of reading hold, so that a file of today still means the same in years."
    return LintRule(
        number, "error", "The file says its format", why, "Write format = 1 as its first line.", codes=FORMAT
    )


def _unknown(number: str) -> LintRule:
    why = "A misspelled key would be passed over, and its author would think that it holds."
    return LintRule(
        number, "error", "Every key is known", why, "Correct the spelling, or take the key out.", codes=("unknown-key",)
    )


RECIPE_RULES = (
    _reading("R100", "recipe"),
    _format("R101"),
    LintRule(
        "R102",
        "error",
        "The version is a semantic version",
        "Evidence and reviews name a version; three numbers say how far two of them are apart.",
        'Write version = "1.0.0", as Semantic Versioning 2.0.0 has it.',
        codes=("version",),
    ),
    _unknown("R103"),
)
KEY_MAP_RULES = (
    _reading("K100", "key map"),
    _format("K101"),
    _unknown("K102"),
    LintRule(
        "K103",
        "error",
        "Every setting is in the vocabulary",
        "A binding to an unknown setting binds nothing.",
        "Name a setting of 'profilesmith vocabulary'.",
        codes=("unknown-setting",),
    ),
    LintRule(
        "K104",
        "error",
        "No key and no setting is bound twice",
        "Two bindings on one key could not be written back apart, and one of two on a setting would be passed over.",
        "Keep one of them, or give split and field where one value holds two settings.",
        codes=("key-twice", "setting-twice"),
    ),
)
FACTS_RULES = (
    _reading("F100", "facts file"),
    _format("F101"),
    _unknown("F102"),
    LintRule(
        "F103",
        "error",
        "Every fact is known",
        "A fact that nothing asks for decides nothing.",
        "Name a fact of 'profilesmith vocabulary'.",
        codes=("unknown-fact",),
    ),
    LintRule(
        "F104",
        "error",
        "Every fact is within its plausible range",
        "A tube of 420 m is most likely 420 mm: a wrong unit would be believed by every recipe.",
        "Check the number and its unit.",
        codes=("fact-range",),
    ),
)
EVIDENCE_RULES = (
    _reading("E100", "record of evidence"),
    _format("E101"),
    LintRule(
        "E102",
        "error",
        "No record was changed afterwards",
        "A record is what somebody saw that day. Its id is worked out from all the rest, so a later change shows.",
        "Bring the old line back, or record the print anew.",
        codes=("id",),
    ),
)
COUPON_RULES = (
    _reading("C100", "coupon plan"),
    _format("C101"),
    _unknown("C102"),
    LintRule(
        "C103",
        "error",
        "Every setting of a plan is in the vocabulary",
        "A factor that no map binds is varied in no print.",
        "Name a setting of 'profilesmith vocabulary'.",
        codes=("unknown-setting",),
    ),
)
TROUBLES_RULES = (
    _reading("M100", "troubles file"),
    _format("M101"),
    _unknown("M102"),
    LintRule(
        "M103",
        "error",
        "Every setting of a cause is in the vocabulary",
        "A cause whose setting no map binds mends nothing.",
        "Name a setting of 'profilesmith vocabulary'.",
        codes=("unknown-setting",),
    ),
    LintRule(
        "M104",
        "error",
        "Every sign and doing is there",
        "A look that nobody can ask for tells no causes apart.",
        "Correct the name, or add a [[sign]] or [[doing]].",
        codes=("unknown-sign", "unknown-doing"),
    ),
)
COUPON_LOG_RULES = (
    _reading("C200", "line of a coupon's log"),
    LintRule(
        "C201",
        "error",
        "No line of a log was changed afterwards",
        "A grade is what somebody saw that day. Its id is worked out from all the rest, so a later change shows.",
        "Bring the old line back, or grade the print anew.",
        codes=("id",),
    ),
)
LIBRARY_RULES = (
    _reading("L100", "library description"),
    _format("L101"),
    _unknown("L102"),
)


def of_problems(problems: Iterable[Problem], rules: Iterable[LintRule], file: str) -> Iterator[LintFinding]:
    """The findings of a loader's problems. The first rule takes every code that no other names."""
    listed = list(rules)
    by_code = {code: rule for rule in listed for code in rule.codes}
    for problem in problems:
        rule = by_code.get(_code(problem), listed[0])
        yield LintFinding(
            rule.number,
            rule.severity,
            problem.place.file or file,
            problem.place.line,
            problem.message,
            problem.hint or rule.fix,
        )


def _code(problem: Problem) -> str:
    """A missing key is told under the number of what it would say."""
    if problem.code in ("missing", "empty"):
        return {"format": "wrong-format", "version": "version", "ask": "ask"}.get(problem.key, problem.code)
    return problem.code
