"""What a unit is made of, each a function from a few numbers to parts and joints."""
