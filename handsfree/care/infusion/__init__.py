"""Infusion arithmetic: exact fractions in named units."""
