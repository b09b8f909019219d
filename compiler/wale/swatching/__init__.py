"""The swatches of a spec side by side: what each measures, and what the garment would be in its fabric.

`facts` looks at a swatch alone, `garment` plans the garment in it, `ranking` orders what came out; `compare` does all
three, `page` and `export` show it.
"""
