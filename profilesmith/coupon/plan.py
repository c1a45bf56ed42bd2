"""Plan: what a coupon is to find out, on which settings, and when it is enough. As ``knowledge/coupon.schema.json``
says.
"""

from fractions import Fraction
from typing import Literal, get_args

from profilesmith.coupon.judge_model import GRADES
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.vocabulary.setting import Value

Kind = Literal["threshold", "screen", "pair"]
KINDS: tuple[Kind, ...] = get_args(Kind)
Way = Literal["graded", "blind"]
WAYS: tuple[Way, ...] = get_args(Way)
Worse = Literal["high", "low"]
WORSE: tuple[Worse, ...] = get_args(Worse)
BETTER = ("left", "right", "tie")
WORDS = (*GRADES, *BETTER)
MOST_PRINTS = 60
START_BLOCK = ("follow", "keep")
USUAL_MOST = {"threshold": 24, "screen": 12, "pair": 6}


class Factor(NamedTuple):
    """A setting and its two ends: of a threshold the range that is searched, of a screen the levels - and +, of a pair
    A and B.

    worse: at which end prints get worse (of a threshold). around: where the recipe has it; None where it says nothing.
    """

    setting: str
    low: Value
    high: Value
    worse: Worse = "high"
    around: Fraction | None = None
    place: Place = Place()


class Stop(NamedTuple):
    """within: a share (1/10) or a difference in the setting's unit; sure: the chance to be inside; most: prints (pairs,
    of a blind pair).
    """

    within: Fraction = Fraction(1, 10)
    sure: Fraction = Fraction(9, 10)
    most: int = 24


class Plan(NamedTuple):
    """recipes: names or files that every print is derived with. judged: what is looked at, in the plan's own words.

    mark: eight hexadecimal digits, drawn once: the order of prints and the sides of blind pairs come from it.
    bases, key_map, facts: what is derived, for the orders that ``coupon next`` writes; () and "" where they are not
    named. start_block: ``follow`` or ``keep``, "" where it is not said.
    """

    name: str
    kind: Kind
    factors: tuple[Factor, ...]
    stop: Stop
    judged: str
    mark: str
    recipes: tuple[str, ...] = ()
    about: str = ""
    way: Way = "graded"
    bases: tuple[str, ...] = ()
    key_map: str = ""
    facts: tuple[str, ...] = ()
    start_block: str = ""
    file: str = ""
    place: Place = Place()
