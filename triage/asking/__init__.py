"""Which question next, why it is asked, and a conversation made of such questions."""
