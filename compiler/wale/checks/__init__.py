"""One check a file: fabric, fit and safety."""
