"""What is wrong before anything is cut."""
