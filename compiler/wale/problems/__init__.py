"""Problem reports: data, codes, and how they are shown."""
