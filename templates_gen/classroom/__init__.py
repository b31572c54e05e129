"""A class: one design, and for each person a cake of their own tins, units and paper."""
