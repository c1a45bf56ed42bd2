"""``python -m profilesmith``."""

from profilesmith.start import main

main()
