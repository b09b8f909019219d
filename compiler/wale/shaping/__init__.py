"""Fixed arithmetic of the craft: spacing, tapers, necks, shoulders, crowns."""
