"""Reference: crops, units, materials and published figures, read from shared/."""
