"""What people see of an assessment and of the knowledge: text, pages, JSON, the handbook."""
