"""From text to the lossless tree."""
