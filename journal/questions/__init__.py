"""Questions: plain English to an answer with its evidence."""
