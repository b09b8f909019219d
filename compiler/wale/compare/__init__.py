"""Two solved garments compared: number by number, cell by cell, and as a patch from one plan to the other."""
