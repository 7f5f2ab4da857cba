"""Projects and tables on disk: read strictly, written so that nothing is ever half there."""
