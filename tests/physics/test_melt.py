"""Pressure of a melt. Values by formula apart from the project; fluids and quadrature in the outside checks."""

from __future__ import annotations

from hypothesis import strategies as st

flows = st.floats(0.5, 20)
radii = st.floats(0.1, 0.6)
powers = st.floats(0.2, 1.2)
