"""Whole numbers on the command line: apart, as it imports nothing that reads a cake."""

from __future__ import annotations

import click


class WholeNumber(click.IntRange):
    """A whole number from one to another; what is none is called that."""

    name = "whole number"
