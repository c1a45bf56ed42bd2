"""Physics and geometry of laid plastic: pure functions of floats, one topic a file. It knows no profile and no text.

Comes in: plain numbers, their units in the parameter's name. Goes out: a number, its unit in the function's name.
Units: mm, mm2, mm3, s, h, deg, rad, c (degrees Celsius), n (newton), mpa (megapascal, N/mm2), pa_s, g, g_cm3.
A ``share`` is a fraction of one (0.15, not 15 %). A ``ratio`` or ``factor`` is new over old.
Exact files (``skins``) take ``Fraction`` or ``int`` and refuse floats: ``ceil(3 * 0.2 / 0.2)`` is 4 in floats.

How an answer looks, in every file:

==================  ===================================================================================
``float``, ``int``  the formula holds for these inputs; its known errors stand in the docstring
``Bracket``         the truth lies between two numbers; no point in between is better than another
``NotValid``        a fair question that the formula cannot answer here: the reason, as a code
``ValueError``      no such thing exists (a negative length, not a number): the caller must look first
==================  ===================================================================================

What is defensible only as a comparison of two materials or machines is offered as a ``ratio``, or says "only to
compare" in its docstring; it is then not to be shown as a number of its own. Marks in the sources: [from memory] was
not confirmed; "common practice, no source" has no standard behind it; "own derivation" is ours, and the tests hold an
outside check against it.

Left out on purpose, because nothing sound can be said: the force at the nozzle, the right retraction distance,
stringing and surface quality, strength, how many bends a part stands, exposure to fumes, the minutes that a print
takes.
"""
