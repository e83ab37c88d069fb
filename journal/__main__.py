"""`python -m journal` is the `haulm` command."""

from journal.cli.main import main

main()
