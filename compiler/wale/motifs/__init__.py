"""The algebra of motifs: made from one another, put together, and their symmetries found. Cells in, cells out."""
