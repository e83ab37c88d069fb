"""Problems: what could not be read, as values with a place and a mend."""
