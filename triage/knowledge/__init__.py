"""What is known about boats: the model, the reader that makes it, and the checks it must pass."""
