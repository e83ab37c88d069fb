"""Events: parts to dated rows with names, units and amounts settled."""
