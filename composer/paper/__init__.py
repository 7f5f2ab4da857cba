"""Paper: sheets described once in page millimetres, drawn as PDF, SVG or pixels."""
