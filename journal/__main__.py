"""`python -m journal` is the `haulm` command."""

from journal.cli.start import main

main()
