"""From the plan to instructions and the pattern document."""
