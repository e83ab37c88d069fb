"""Tables: events and their fellows as pandas frames, and as files."""
