"""`python -m counter` does what the `counter` command does."""

import sys

from counter.cli import main

sys.exit(main())
