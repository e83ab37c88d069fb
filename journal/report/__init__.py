"""Reports: studies and charts put together for people."""
