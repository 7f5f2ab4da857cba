"""Every change of a project, as an edit from one project value to the next."""
