"""Release: whether a soft part comes off bed or raft whole. Common practice alone: no fact tells how smooth a bed
is.
"""

from profilesmith.checks.case import Case, switch
from profilesmith.checks.materials import flexible, of_spool, spool_name
from profilesmith.ledger.judgement import Finding

CHECK, TITLE = "release", "Taking the part off"
SOURCE = "common practice, no source"
SETTINGS = ("raft.on",)
BARE = (
    "{name} may hold a smooth bed so hard that peeling tears the part or the bed's face. Put a "
    "release layer on it that "
    "suits the surface, or print on a raft, and let it cool before you peel."
)
RAFT = "Let the part cool, and bend the raft away from it, not the part from the raft."


def check(case: Case) -> tuple[Finding, ...]:
    """None for a rigid spool, or where the text does not tell whether there is a raft."""
    raft = switch(case.now, "raft.on")
    if not flexible(case) or raft is None:
        return ()
    if raft:
        return (Finding(CHECK, "passed", TITLE, RAFT, source=SOURCE, settings=SETTINGS),)
    plastic, name = of_spool(case), spool_name(case)
    text = BARE.format(name=name[:1].upper() + name[1:])
    rubbery = plastic is not None and plastic.rubbery
    changed = case.derived is not None
    return (Finding(CHECK, "note", TITLE, text, source=SOURCE, settings=SETTINGS, unsuited=rubbery and changed),)
