"""The spread of a week planned: what it needs to know, what was asked, and the plan as it is kept and shown."""
