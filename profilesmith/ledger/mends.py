"""What a ledger keeps of mends after prints: what each print showed, what was changed then, and what came of it."""

from collections.abc import Mapping
from typing import Literal, get_args

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.form import Annotated
from profilesmith.ledger.ledger import Values

Grade = Literal["good", "fair", "poor"]
GRADES: tuple[Grade, ...] = get_args(Grade)
Verdict = Literal["", "better", "same", "worse"]
MEND_VERDICTS: tuple[Verdict, ...] = get_args(Verdict)[1:]


class MendChange(NamedTuple):
    """One setting, from where to where, for which trouble and cause; trouble is "" where it goes along or back."""

    setting: Annotated[str, "The setting."]
    before: Annotated[Values, "Its value before."]
    after: Annotated[Values, "Its value after."]
    trouble: Annotated[str, "The trouble that it is for; empty where it goes along or back."]
    what: Annotated[str, "The cause."]
    why: Annotated[str, "The reason."]
    source: Annotated[str, "Its source."]


class Mend(NamedTuple):
    """One mend that was written. undo: its changes take the one before back. did: what was done before its print."""

    date: Annotated[str, "The day."]
    last: Annotated[Verdict, "What came of the mend before this one."]
    undo: Annotated[bool, "Whether it takes the one before back."]
    seen: Annotated[Mapping[str, Grade], "What the print showed: trouble and grade."]
    looks: Annotated[Mapping[str, bool], "Looks that were taken, and their answers."]
    did: Annotated[tuple[str, ...], "What was done to spool or machine before the print."]
    changes: Annotated[tuple[MendChange, ...], "The settings that were changed then."]
