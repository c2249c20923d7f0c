"""`python -m hoofsim` is the same as the `hoofsim` command."""

import sys

from hoofsim.cli.main import main

sys.exit(main())
