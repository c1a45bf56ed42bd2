"""Release: whether a soft part comes off bed or raft whole. Common practice alone: no fact tells how smooth a bed
is.
"""

from profilesmith.checks.case import Case
from profilesmith.checks.materials import flexible, of_spool, spool_name
from profilesmith.checks.plain_numbers import switch
from profilesmith.ledger.judgement import Finding

CHECK = "release"
SOURCE = "common practice, no source"
SETTINGS = ("raft.on",)


def check(case: Case) -> tuple[Finding, ...]:
    """None for a rigid spool, or where the text does not tell whether there is a raft."""
    raft = switch(case.now, "raft.on")
    if not flexible(case) or raft is None:
        return ()
    if raft:
        return (Finding(CHECK, "passed", reason="on-a-raft", source=SOURCE, settings=SETTINGS),)
    plastic = of_spool(case)
    rubbery = plastic is not None and plastic.rubbery
    return (
        Finding(
            CHECK,
            "note",
            reason="on-a-bare-bed",
            names=(spool_name(case),),
            source=SOURCE,
            settings=SETTINGS,
            unsuited=rubbery and case.derived is not None,
        ),
    )
