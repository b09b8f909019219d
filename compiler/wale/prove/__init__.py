"""The proof: printed instructions are read back, knitted stitch by stitch, and held against the plan.

Nothing here comes from `solve`, `draft`, `write` or `outputs`; what the fabric is compared with is plain data.
"""
