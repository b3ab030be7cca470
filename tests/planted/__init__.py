"""Planted mistakes: small changes to good designs, as would slip in a workshop or a script."""
