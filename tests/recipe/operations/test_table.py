"""In which order operations are tried on before/after pairs: of two that explain them the gentler one is taught."""

from __future__ import annotations

from profilesmith.recipe.operations import LEARNED, OPERATIONS


def test_each_has_its_own_place_and_bounds_go_before_what_is_applied_once() -> None:
    assert [operation.gentle for operation in LEARNED] == [*range(len(LEARNED))]
    assert {operation.name for operation in LEARNED} == {item.name for item in OPERATIONS if item.gentle is not None}
    assert [operation.once for operation in LEARNED] == sorted(operation.once for operation in LEARNED)
    bounds = [operation.is_bound for operation in LEARNED]
    assert bounds == sorted(bounds, reverse=True)
