"""From trees to the resolved spec: names, units, values by size."""
