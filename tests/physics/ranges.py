"""Ranges that Hypothesis draws from: sizes and speeds that a desktop machine can have, and far around them."""

from __future__ import annotations

from hypothesis import settings
from hypothesis import strategies as st

# No deadline: a busy machine is no failure.
law = settings(deadline=None, max_examples=60)

heights = st.floats(0.02, 1.0)
squeezes = st.floats(1.0, 5.0)  # width over height
speeds = st.floats(0.5, 500.0)
accelerations = st.floats(20.0, 20000.0)
lengths = st.floats(0.01, 500.0)
shares = st.floats(0.01, 1.0)
moduli = st.floats(1.0, 5000.0)
thicknesses = st.floats(0.1, 20.0)
angles = st.floats(0.0, 89.0)
