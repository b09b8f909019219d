"""A garment at another gauge, in another swatch, yarn, or for other sizes: the same file with the fewest lines changed.

`ways` reads what is asked for, `fabrics`, `gauges`, `yarns`, `sizing` say which edits of the text it takes, `keeping`
adds those that keep counts or repeats, `text` makes them. No line is ever taken out of a file: one that no longer
holds becomes a comment.
"""
