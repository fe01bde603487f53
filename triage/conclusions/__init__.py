"""What the program concludes, as frozen data that carries its reasons."""
