"""Random cakes over every key of the cake file: one set of tables for the laws and the campaign."""
