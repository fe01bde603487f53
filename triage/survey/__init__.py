"""What a person reports: one visit to one boat."""
