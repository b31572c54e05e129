"""The version of the program, which enters every pack mark."""

VERSION = "0.1.0"
