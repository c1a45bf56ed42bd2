"""``python -m profilesmith``."""

from profilesmith.cli.app import main

main()
