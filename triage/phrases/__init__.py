"""Every fixed sentence that the program itself says, made from conclusions; what the rules say stands in the rules."""
