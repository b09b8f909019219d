"""From the resolved spec to unknowns, rules and wishes."""
