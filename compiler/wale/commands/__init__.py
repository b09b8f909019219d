"""The commands of `wale`, one a file; `wale.cli` gathers them."""
