#!/bin/bash
# tests/shown/kill9.sh PROGRAM [ROUNDS]: kill -9 in the middle of answers, weather and plans; see kill9.py.
exec /usr/bin/python3 -B "$(dirname "$0")/kill9.py" "$@"
