"""The printing window: sheets as they are taped together, preview, PDF and printer."""
