"""The plant ledger: every sowing and planting as a batch, with what became of each plant."""
