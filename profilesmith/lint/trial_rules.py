"""The numbered rules of trials: what deriving every recipe on reference profiles may come to, and what changes do."""

from __future__ import annotations

from profilesmith.lint.rule import RuleText

TAKEN = "Put it back; where it is meant, give the reason in a commit's message and call with --accept."
TRIALS = (
    RuleText(
        "T101",
        "error",
        "Every reference profile can be read",
        "Recipes can be tried on nothing else.",
        "Mend the profile, its map or its facts.",
    ),
    RuleText(
        "T102",
        "hint",
        "The library has a reference profile",
        "Without one its recipes are tried on nothing.",
        "Add a [[profile]] to library.toml.",
    ),
    RuleText(
        "T103",
        "error",
        "Every file can be judged",
        "A file that the program stumbles over is judged by nobody.",
        "Report it with the file.",
    ),
    RuleText(
        "T201",
        "error",
        "Every recipe can be carried out",
        "A text that does not come out as the review says is worth nothing.",
        "Report it with the map and the text.",
    ),
    RuleText(
        "T202",
        "error",
        "No recipe conflicts with a profile whatever the facts are",
        "It would be refused on every such machine.",
        "Loosen one of the two rules.",
    ),
    RuleText(
        "T203",
        "hint",
        "A recipe suits the machine and spool of a profile",
        "Not every recipe is for every machine; whoever has this one should know.",
        (
            "Past a machine's limit of temperature: lower it, or give the rule a condition with when. "
            "Else nothing, where that is meant."
        ),
    ),
    RuleText(
        "T204",
        "hint",
        "Every rule finds a key in some profile",
        "A rule that no profile has a key for was tried on nothing.",
        "Add a profile that has the key.",
    ),
    RuleText(
        "T301",
        "error",
        "Recipes that claim to go together do",
        "Somebody will lay them over each other and be refused.",
        "Loosen one of them, or take the claim back.",
    ),
    RuleText(
        "T302",
        "error",
        "A recipe claims no more partners than are tried",
        "A claim that nobody tries is none.",
        "Name fewer in goes_with.",
    ),
    RuleText(
        "T401",
        "error",
        "What could be derived before still can",
        "Somebody uses it. Asked with --since alone, of every recipe and reference profile that changed.",
        "Loosen what stands against it, or give the rule a condition.",
    ),
    RuleText(
        "T402",
        "hint",
        "A change brings no new and no worse caution or alarm",
        "Whoever takes the new version should know before the print. Asked with --since alone.",
        "Mend what causes it, or take it on purpose.",
    ),
    RuleText(
        "T501",
        "error",
        "No record of a print is taken out or altered",
        "Evidence that can vanish is none. Asked with --since alone.",
        TAKEN,
    ),
    RuleText(
        "T502",
        "error",
        "No recipe goes",
        "Members use it, and its prints speak of it. A rename begins both anew. Asked with --since alone.",
        TAKEN,
    ),
    RuleText(
        "T503",
        "hint",
        "No map and no facts file goes",
        "Whoever names it is refused. Asked with --since alone.",
        TAKEN,
    ),
    RuleText(
        "T504",
        "error",
        "No reference profile goes",
        "Recipes are tried on fewer machines than before. Asked with --since alone.",
        TAKEN,
    ),
    RuleText(
        "T505",
        "error",
        "No caution goes",
        (
            "Whoever applies the recipe is not told any more; where one reads otherwise it is a hint. "
            "Asked with --since alone."
        ),
        TAKEN,
    ),
    RuleText(
        "T506",
        "error",
        "No rule on heat goes",
        "What it held is held by nobody; a looser bound is a hint. Asked with --since alone.",
        TAKEN,
    ),
    RuleText(
        "T507",
        "error",
        "`to` still names a known material",
        "Without one the recipe's heat is held against no material. Asked with --since alone.",
        TAKEN,
    ),
    RuleText(
        "T508",
        "error",
        "A strict library stays strict",
        "Its hints would pass. Asked with --since alone.",
        TAKEN,
    ),
    RuleText(
        "T509",
        "error",
        "What checks the library stays as it is",
        "A check that is gutted finds nothing. Asked with --since alone.",
        TAKEN,
    ),
    RuleText(
        "T510",
        "error",
        "No machine's limit on heat is raised or taken out",
        "It holds every recipe back; one that stays within what a material of the table asks for is a hint. "
        "Asked with --since alone.",
        TAKEN,
    ),
    RuleText(
        "T511",
        "hint",
        "A map's keys speak for the settings that they are bound to",
        "A bed that is bound to a dryer's key would be heated in silence. Asked with --since alone, of changed maps.",
        "Look at the text once more; where the binding is right, take it on purpose.",
    ),
)
