"""Met files: a weather station's own file, beside the diary, to readings of the weather table."""
