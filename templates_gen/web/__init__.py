"""The page. The same public functions as the command line, seen in a browser."""
