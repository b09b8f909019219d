"""From a picture to a motif: opened, its repeat found, cells matched with yarns, mended, told as text."""
