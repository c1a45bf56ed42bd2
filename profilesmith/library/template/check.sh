#!/bin/sh
# One line for each finding, exit 1 when one is an error. Any service that checks changes can call it:
# install profilesmith, then run ./check.sh. Further options go through, such as --strict or --as json.
set -eu
cd "$(dirname "$0")"
exec profilesmith library check . --as lines "$@"
