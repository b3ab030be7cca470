"""What the workshop needs to make the unit: cut list, cut plan, set-ups, gluing, finishing."""
