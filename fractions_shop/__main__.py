"""`python -m fractions_shop` is the command."""

import sys

from fractions_shop.command.cli import main

sys.exit(main())
