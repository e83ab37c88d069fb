"""What was read before, kept beside the diary's own files and never believed over them."""
