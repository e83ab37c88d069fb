"""Charts: a study's frame to one picture, and nothing else."""
