"""What heads a run of keys in a list of their names: ``d1..d9 rates, mm/min:``, ``K-401 to K-409: pace``."""

import re

from profilesmith.foundation.named_tuple import NamedTuple

_RUN = re.compile(
    r"(?P<sign>\S*?)(?P<low>\d{1,5})\s*(?:\.{2,}|…|[-–—]|to|bis|à)\s*"
    r"(?P<other>\S*?)(?P<high>\d{1,5})[\s:,]\s*(?P<words>[^\W\d_].*)"
)
_NUMBERED = re.compile(r"(\S*?)(\d{1,5})")
FEWEST = 2  # keys of a run


class RunHead(NamedTuple):
    """What is said of the keys with a sign and a number from low to high."""

    sign: str
    low: int
    high: int
    words: str

    def covers(self, key: str) -> bool:
        number = _NUMBERED.fullmatch(key)
        return number is not None and number[1] == self.sign and self.low <= int(number[2]) <= self.high


def run_head(line: str) -> RunHead | None:
    """The run of keys that a line names, and what it says of them."""
    match = _RUN.fullmatch(line.strip())
    if match is None or match["other"] not in ("", match["sign"]) or not match["sign"]:
        return None
    low, high = int(match["low"]), int(match["high"])
    return RunHead(match["sign"], low, high, match["words"].strip(" :")) if high - low >= FEWEST - 1 else None
