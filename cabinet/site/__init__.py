"""The unit on its wall and in use: weight, strength, hanging, air."""
