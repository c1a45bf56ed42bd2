#!/bin/sh
# One line for each finding, exit 1 when one is an error. Any service that checks changes can call it:
# install profilesmith, then run ./check.sh. Further options go through, such as --strict or --as json.
# A first word that is no option is the git revision that changed recipes are held against: the branch that a change is
# to go into, such as ./check.sh main. Without it that is the last commit, which holds a committed change already.
# The service must have fetched that branch.
set -eu
cd "$(dirname "$0")"
if [ $# -gt 0 ]; then
    case "$1" in
        -*) ;;
        *) since=$1; shift; set -- --since "$since" "$@" ;;
    esac
fi
exec profilesmith library check . --as lines "$@"
